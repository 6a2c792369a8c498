#include "author/upgrade.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string_view>

namespace exworks {

namespace {

constexpr std::string_view space = " \t\r\n";

/// Attributes of format 1 that mean nothing in format 2.
bool retired(std::string_view element, std::string_view attribute) {
  constexpr std::array<std::string_view, 5> rates{"sure", "probable", "guess", "look-alike", "unlisted"};
  return (element == "feature" && attribute == "slip") || (element == "rates" && std::find(rates.begin(), rates.end(), attribute) != rates.end());
}

/// Copies a file tag by tag; what is no start tag goes over untouched.
class Rewriter {
 public:
  explicit Rewriter(const std::string& text) : in_(text) {}

  Upgraded run() {
    while (at_ < in_.size()) {
      if (in_[at_] != '<') copy_to(in_.find('<', at_), 0);
      else if (starts("<!--")) copy_to(in_.find("-->", at_), 3);
      else if (starts("<![CDATA[")) copy_to(in_.find("]]>", at_), 3);
      else if (starts("<?")) copy_to(in_.find("?>", at_), 2);
      else if (starts("</")) copy_to(in_.find('>', at_), 1);
      else if (!start_tag()) return {in_, {}, false};
    }
    return std::move(out_);
  }

 private:
  bool starts(std::string_view what) const { return std::string_view(in_).substr(at_, what.size()) == what; }

  void copy_to(std::size_t found, std::size_t and_more) {
    const std::size_t end = found == std::string::npos ? in_.size() : found + and_more;
    out_.text.append(in_, at_, end - at_);
    at_ = end;
  }

  /// False when the root says that there is nothing to do.
  bool start_tag() {
    const std::size_t name_end = std::min(in_.find_first_of(" \t\r\n/>", at_ + 1), in_.size());
    const std::string element = in_.substr(at_ + 1, name_end - at_ - 1);
    const bool root = !root_seen_;
    root_seen_ = true;
    if (root && element != "pack") return false;
    copy_to(name_end, 0);
    bool of_format_1 = false;
    while (at_ < in_.size() && in_[at_] != '>') of_format_1 = attribute(element, root) || of_format_1;
    copy_to(in_.find('>', at_), 1);
    if (root) out_.rewritten = of_format_1;
    return !root || of_format_1;
  }

  /// One attribute with the space before it, or whatever else stands before the end of the tag. True when it was the root's format 1.
  bool attribute(const std::string& element, bool root) {
    const std::size_t name = in_.find_first_not_of(space, at_);
    const std::size_t equals = name == std::string::npos ? name : in_.find_first_of("=>", name);
    if (equals == std::string::npos || in_[equals] == '>') return copy_to(name == std::string::npos || in_[name] == '>' ? name : in_.find('>', name), 0), false;
    const std::size_t quote = in_.find_first_of("\"'", equals);
    const std::size_t end = quote == std::string::npos ? quote : in_.find(in_[quote], quote + 1);
    if (end == std::string::npos) return copy_to(end, 0), false;
    const std::string id = in_.substr(name, in_.find_last_not_of(space, equals - 1) + 1 - name);
    if (retired(element, id)) {
      out_.dropped.push_back(in_.substr(name, end + 1 - name));
      at_ = end + 1;
      return false;
    }
    if (!root || id != "format" || in_.compare(quote + 1, end - quote - 1, "1") != 0) return copy_to(end, 1), false;
    copy_to(quote, 1);
    out_.text += '2';
    at_ = end;
    copy_to(end, 1);
    return true;
  }

  const std::string& in_;
  std::size_t at_ = 0;
  bool root_seen_ = false;
  Upgraded out_;
};

}  // namespace

Upgraded upgraded_pack_file(const std::string& text) { return Rewriter(text).run(); }

}  // namespace exworks
