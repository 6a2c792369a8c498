#pragma once
#include <string>

/// A square code (QR, ISO/IEC 18004) of an address, by libqrencode.
namespace exworks::cli::web {

/// For a terminal, two rows of squares a line, dark on light whatever the terminal's colours are; "" when it can't be made.
std::string qr_for_terminal(const std::string& text);

/// A drawing, black on white, with the quiet edge that a camera needs.
std::string qr_as_svg(const std::string& text);

}  // namespace exworks::cli::web
