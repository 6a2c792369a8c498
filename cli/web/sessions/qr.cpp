#include "web/sessions/qr.hpp"

#include <qrencode.h>

#include <memory>

namespace exworks::cli::web {

namespace {

class Square {
 public:
  explicit Square(const std::string& text) : code_(QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M), QRcode_free) {}
  explicit operator bool() const { return code_ != nullptr; }
  int width() const { return code_->width; }
  /// Outside lies the quiet edge, which is light.
  bool dark(int x, int y) const { return x >= 0 && y >= 0 && x < width() && y < width() && (code_->data[y * width() + x] & 1) != 0; }

 private:
  std::unique_ptr<QRcode, void (*)(QRcode*)> code_;
};

constexpr int edge = 4;

}  // namespace

std::string qr_for_terminal(const std::string& text) {
  const Square square(text);
  if (!square) return "";
  std::string out;
  for (int y = -edge; y < square.width() + edge; y += 2) {
    // Black on white: cameras read the reverse badly.
    out += "\033[30;107m";
    for (int x = -edge; x < square.width() + edge; ++x) {
      const bool upper = square.dark(x, y), lower = square.dark(x, y + 1);
      out += upper && lower ? "█" : upper ? "▀" : lower ? "▄" : " ";
    }
    out += "\033[0m\n";
  }
  return out;
}

std::string qr_as_svg(const std::string& text) {
  const Square square(text);
  if (!square) return "";
  const std::string size = std::to_string(square.width() + 2 * edge);
  std::string path;
  for (int y = 0; y < square.width(); ++y) {
    for (int x = 0; x < square.width(); ++x) {
      if (square.dark(x, y)) path += "M" + std::to_string(x + edge) + " " + std::to_string(y + edge) + "h1v1h-1z";
    }
  }
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + size + " " + size + "\" shape-rendering=\"crispEdges\"><rect width=\"" + size + "\" height=\"" + size +
         "\" fill=\"#fff\"/><path d=\"" + path + "\" fill=\"#000\"/></svg>";
}

}  // namespace exworks::cli::web
