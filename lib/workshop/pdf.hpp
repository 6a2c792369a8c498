#pragma once
#include <string>

namespace exworks {

/// The page as a PDF, made by Debian's weasyprint. Throws FileError when it is not installed or fails.
std::string pdf_of(const std::string& html);

}  // namespace exworks
