#pragma once
#include <array>
#include <string>
#include <string_view>

#include "report/model/document.hpp"

namespace exworks {

/// One colour of the reports: as a CSS variable, on the light and on the dark page, and what contrast it needs there
/// (WCAG 2.2: 4.5 for text, 3.0 for graphics, 0 for grounds).
struct Ink {
  std::string_view name, light, dark;
  double needs = 0;
};

/// The data colours are those of Okabe and Ito, in the darker or lighter shade that text needs.
inline constexpr std::array<Ink, 9> inks{{
    {"ground", "#fcf9f2", "#1b1a17", 0},
    {"panel", "#f3ecdd", "#272520", 0},
    {"ink", "#211d17", "#eee8da", 4.5},
    {"muted", "#5c5446", "#b9b09c", 4.5},
    {"rule", "#8a7d63", "#8a8069", 3.0},
    {"link", "#00537f", "#7cc4ee", 4.5},
    {"original", "#005a8c", "#74c0ef", 4.5},
    {"later", "#a53f00", "#f59a5c", 4.5},
    {"uncertain", "#6d4900", "#eebb4d", 4.5},
}};

/// The WCAG contrast of two colours written #rrggbb, 1 to 21.
double contrast(std::string_view a, std::string_view b);

/// The whole style sheet; `paper` is A4 or letter.
std::string style_sheet(std::string_view paper, Layout layout);

}  // namespace exworks
