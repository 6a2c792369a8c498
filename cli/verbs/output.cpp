#include "verbs/output.hpp"

#include <filesystem>

#include "base/file.hpp"
#include "command.hpp"
#include "workshop/pdf.hpp"

namespace exworks::cli {

std::string output_kind(const std::string& file, bool overwrite) {
  const std::string ending = std::filesystem::path(file).extension().string();
  if (ending != ".html" && ending != ".pdf" && ending != ".txt") throw FileError{"the output '" + file + "' ends in neither .html, .pdf nor .txt", "name it report.html, report.pdf or report.txt"};
  refuse_existing(file, overwrite);
  return ending.substr(1);
}

void write_output(const std::string& file, const std::string& kind, const std::string& html, const std::string& text) {
  write_file(file, kind == "html" ? html : kind == "pdf" ? pdf_of(html) : text);
}

}  // namespace exworks::cli
