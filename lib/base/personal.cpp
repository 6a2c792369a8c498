#include "base/personal.hpp"

namespace exworks {

bool is_personal(std::string_view field) { return field == "note" || field == "by" || field == "photo" || field == "file"; }

bool is_personal_about(std::string_view name) { return name == "owner" || name == "name" || name == "reference" || name == "note" || name == "by"; }

}  // namespace exworks
