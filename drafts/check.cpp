#include <cstdio>
#include "base/file.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/check/pack_checks.hpp"
#include "pack/read/pack_reader.hpp"
using namespace exworks;
int main(int n,char**v){ for(int i=2;i<n;++i){ Diagnostics d; std::filesystem::path rules=v[1]; const auto p=read_pack(rules/v[i],d,{rules}); if(p) check_pack(*p,d); for(const auto& x:d.sorted()) std::printf("%s\n",to_text(x).c_str()); if(p&&!d.has_errors()){ auto t=compile(*p,d); if(t) std::printf("%s: %zu builds %zu cells %zu conversions\n",v[i],t->builds(),t->cells(),t->conversions.size()); }} }
