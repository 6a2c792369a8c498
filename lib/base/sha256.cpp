#include "base/sha256.hpp"

#include <openssl/evp.h>

#include <algorithm>
#include <fstream>
#include <memory>
#include <stdexcept>

#include "base/file.hpp"

namespace exworks {

namespace {

class Digest {
 public:
  Digest() : context_(EVP_MD_CTX_new(), EVP_MD_CTX_free) {
    if (!context_ || EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr) != 1) throw std::runtime_error("SHA-256 is not available");
  }
  void add(const char* bytes, std::size_t size) { EVP_DigestUpdate(context_.get(), bytes, size); }
  std::string hex() {
    unsigned char raw[EVP_MAX_MD_SIZE];
    unsigned int size = 0;
    EVP_DigestFinal_ex(context_.get(), raw, &size);
    std::string out;
    for (unsigned int i = 0; i < size; ++i) {
      out += "0123456789abcdef"[raw[i] >> 4];
      out += "0123456789abcdef"[raw[i] & 15];
    }
    return out;
  }

 private:
  std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context_;
};

}  // namespace

std::string sha256(std::string_view bytes) {
  Digest digest;
  digest.add(bytes.data(), bytes.size());
  return digest.hex();
}

std::string sha256_of_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw FileError{path.string() + ": the file can't be read", "check that it is there and who may read it"};
  Digest digest;
  char block[1 << 16];
  while (in.read(block, sizeof block) || in.gcount() > 0) digest.add(block, static_cast<std::size_t>(in.gcount()));
  if (in.bad()) throw FileError{path.string() + ": reading failed half-way", "check the disk"};
  return digest.hex();
}

bool is_sha256(std::string_view text) {
  return text.size() == 64 && std::all_of(text.begin(), text.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

}  // namespace exworks
