#include <filesystem>
#include <iostream>

#include "base/file.hpp"
#include "completions.hpp"
#include "man_page.hpp"

/// Run by the build: writes man1/*.1 and the completions, laid out as below a share folder. Use: exworks_manual FOLDER
namespace {

namespace fs = std::filesystem;
using namespace exworks::manual;

void write(const fs::path& file, const std::string& text) {
  fs::create_directories(file.parent_path());
  exworks::write_file(file, text);
}

void write_pages(const Verb& verb, const Verb* parent, const fs::path& folder) {
  write(folder / (name_of(verb, '-') + ".1"), man_page(verb, parent, EXWORKS_VERSION));
  for (const Verb& v : verb.verbs) write_pages(v, &verb, folder);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: exworks_manual FOLDER\n";
    return 2;
  }
  try {
    const Verb top = tree();
    const fs::path share = argv[1];
    fs::remove_all(share);  // a verb that is gone leaves no page behind
    write_pages(top, nullptr, share / "man/man1");
    write(share / "bash-completion/completions/exworks", bash_completion(top));
    write(share / "zsh/vendor-completions/_exworks", zsh_completion(top));
    write(share / "fish/vendor_completions.d/exworks.fish", fish_completion(top));
    return 0;
  } catch (const exworks::FileError& e) {
    std::cerr << e.what << "; " << e.remedy << '\n';
    return 4;
  }
}
