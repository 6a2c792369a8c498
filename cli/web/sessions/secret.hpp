#pragma once
#include <string>
#include <string_view>

/// What nobody shall guess: codes, cookies, tokens. From the kernel's random numbers.
namespace exworks::cli::web {

/// 256 bits in hexadecimal.
std::string random_token();

/// A code for people to type: eight letters and digits that can't be taken for one another, in two groups: "K7QM-2XPD" (40 bits).
std::string random_code();

/// As typed, without the hyphen, spaces and small letters.
std::string plain_code(std::string_view typed);

/// Compares in a time that does not tell how much of it was right.
bool same_secret(std::string_view a, std::string_view b);

}  // namespace exworks::cli::web
