#include "api/exworks.hpp"

#include <filesystem>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/read/pack_reader.hpp"
#include "record/inspection_reader.hpp"
#include "report/json/assessment_json.hpp"
#include "report/kinds/console.hpp"
#include "report/render/render.hpp"
#include "assess/assessment.hpp"

namespace exworks::api {

struct Pack::Impl {
  std::shared_ptr<const Tables> tables;
};
struct Inspection::Impl {
  exworks::Inspection inspection;
};
struct Assessment::Impl {
  std::shared_ptr<const Tables> tables;
  exworks::Inspection inspection;
  exworks::Assessment assessment;
  std::vector<Problem> remarks;
};

namespace {

std::vector<Problem> problems_of(const Diagnostics& diagnostics) {
  std::vector<Problem> out;
  for (const Diagnostic& d : diagnostics.sorted()) {
    out.push_back({d.severity == Severity::error, d.place.file, d.place.line, d.place.column, d.what, d.remedy});
  }
  return out;
}

std::vector<Problem> errors_of(const Diagnostics& diagnostics) {
  std::vector<Problem> out = problems_of(diagnostics);
  std::erase_if(out, [](const Problem& p) { return !p.error; });
  return out;
}

Error error_of(const FileError& e) { return Error({{true, "", 0, 0, e.what, e.remedy}}); }

std::string joined(const std::vector<Problem>& problems) {
  std::string out;
  for (const Problem& p : problems) {
    if (!out.empty()) out += '\n';
    out += p.file.empty() ? p.what + "; " + p.remedy : to_text({Severity::error, {p.file, p.line, p.column}, p.what, p.remedy});
  }
  return out;
}

}  // namespace

std::string version() { return EXWORKS_VERSION; }

Error::Error(std::vector<Problem> problems) : std::runtime_error(joined(problems)), problems_(std::move(problems)) {}
Error::~Error() = default;

Pack::Pack(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Pack::Pack(Pack&&) noexcept = default;
Pack& Pack::operator=(Pack&&) noexcept = default;
Pack::~Pack() = default;

Pack Pack::load(const std::string& folder) {
  Diagnostics diagnostics;
  try {
    const auto pack = read_pack(folder, diagnostics);
    auto tables = pack ? compile(*pack, diagnostics) : std::nullopt;
    if (!tables) throw Error(errors_of(diagnostics));
    return Pack(std::make_unique<Impl>(Impl{std::make_shared<const Tables>(std::move(*tables))}));
  } catch (const FileError& e) {
    throw error_of(e);
  }
}

std::string Pack::id() const { return impl_->tables->family; }
std::string Pack::name() const { return impl_->tables->name; }
std::string Pack::edition() const { return impl_->tables->version; }

Inspection::Inspection(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Inspection::Inspection(Inspection&&) noexcept = default;
Inspection& Inspection::operator=(Inspection&&) noexcept = default;
Inspection::~Inspection() = default;

Inspection Inspection::load(const std::string& file) {
  try {
    return parse(read_file(file), file);
  } catch (const FileError& e) {
    throw error_of(e);
  }
}

Inspection Inspection::parse(const std::string& xml, const std::string& name) {
  Diagnostics diagnostics;
  auto inspection = read_inspection(xml, name, diagnostics);
  if (!inspection) throw Error(errors_of(diagnostics));
  return Inspection(std::make_unique<Impl>(Impl{std::move(*inspection)}));
}

std::string Inspection::family() const { return impl_->inspection.family; }

Assessment::Assessment(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Assessment::Assessment(Assessment&&) noexcept = default;
Assessment& Assessment::operator=(Assessment&&) noexcept = default;
Assessment::~Assessment() = default;

std::string Assessment::json() const { return json_report({*impl_->tables, impl_->inspection, impl_->assessment}).dump(2); }
std::string Assessment::text(bool full) const { return render_text(*impl_->tables, console_report({*impl_->tables, impl_->inspection, impl_->assessment}, full)); }
const std::vector<Problem>& Assessment::remarks() const { return impl_->remarks; }

Assessment assess(const Pack& pack, const Inspection& inspection) {
  Diagnostics diagnostics;
  auto found = exworks::assess(*pack.impl_->tables, inspection.impl_->inspection, Settings{}, Given{}, diagnostics);
  if (!found) throw Error(errors_of(diagnostics));
  return Assessment(std::make_unique<Assessment::Impl>(Assessment::Impl{pack.impl_->tables, inspection.impl_->inspection, std::move(*found), problems_of(diagnostics)}));
}

}  // namespace exworks::api
