#include "web/sessions/secret.hpp"

#include <sys/random.h>

#include <array>
#include <stdexcept>

namespace exworks::cli::web {

namespace {

template <std::size_t n>
std::array<unsigned char, n> random_bytes() {
  std::array<unsigned char, n> out{};
  // Up to 256 bytes come at once and whole.
  static_assert(n <= 256);
  if (getrandom(out.data(), n, 0) != static_cast<ssize_t>(n)) throw std::runtime_error("the system gave no random numbers");
  return out;
}

}  // namespace

std::string random_token() {
  static constexpr std::string_view digits = "0123456789abcdef";
  std::string out;
  for (unsigned char b : random_bytes<32>()) {
    out += digits[b >> 4u];
    out += digits[b & 15u];
  }
  return out;
}

std::string random_code() {
  // 32 signs, without I, O, 0 and 1.
  static constexpr std::string_view signs = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
  static_assert(signs.size() == 32);
  std::string out;
  for (unsigned char b : random_bytes<8>()) {
    if (out.size() == 4) out += '-';
    out += signs[b & 31u];
  }
  return out;
}

std::string plain_code(std::string_view typed) {
  std::string out;
  for (char c : typed) {
    if (c >= 'a' && c <= 'z') out += static_cast<char>(c - 'a' + 'A');
    else if ((c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')) out += c;
  }
  return out;
}

bool same_secret(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned char differ = 0;
  for (std::size_t i = 0; i < a.size(); ++i) differ = static_cast<unsigned char>(differ | (a[i] ^ b[i]));
  return differ == 0;
}

}  // namespace exworks::cli::web
