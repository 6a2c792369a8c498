#include "report/render/style.hpp"

#include <algorithm>
#include <cmath>

namespace exworks {

namespace {

double luminance(std::string_view hex) {
  const auto channel = [&](std::size_t at) {
    const auto digit = [](char c) { return c <= '9' ? c - '0' : (c | 32) - 'a' + 10; };
    const double s = (digit(hex[at]) * 16 + digit(hex[at + 1])) / 255.0;
    return s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

/// The rules with each `$name` replaced by its colour. Not CSS variables: the maker of PDFs drops a border that is written with one.
std::string coloured(std::string_view rules, bool dark) {
  std::string out(rules);
  for (const Ink& ink : inks) {
    const std::string name = "$" + std::string(ink.name);
    const std::string_view colour = dark ? ink.dark : ink.light;
    for (std::size_t at = out.find(name); at != std::string::npos; at = out.find(name, at + colour.size())) out.replace(at, name.size(), colour);
  }
  return out;
}

// The head is a builder's plate: a double border and four rivets.
constexpr std::string_view rules = R"(
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0;background:$ground;color:$ink;font:16px/1.5 "Gill Sans","Gill Sans Nova",Carlito,"Noto Sans","DejaVu Sans",sans-serif;overflow-wrap:anywhere}
main{max-width:46rem;margin:0 auto;padding:1rem}
.skip{position:absolute;left:-999px}.skip:focus{left:1rem;top:1rem;background:$panel;padding:.5rem}
a{color:$link}
h1,h2,h3{font-family:Georgia,"Gelasio","DejaVu Serif",serif;line-height:1.2;font-weight:600;break-after:avoid}
h1{font-size:1.65rem;margin:.2rem 0 .4rem}
h2{font-size:1.25rem;margin:2rem 0 .6rem;padding-bottom:.25rem;border-bottom:3px double $rule}
h3{font-size:1.02rem;margin:1.2rem 0 .3rem}
p,ul,dl,table,figure{margin:.5rem 0}
.plate{position:relative;border:4px double $rule;border-radius:14px;background:$panel;padding:1rem 1.9rem}
.plate i{position:absolute;width:9px;height:9px;border-radius:50%;border:2px solid $rule}
.plate .r1{left:7px;top:7px}.plate .r2{right:7px;top:7px}.plate .r3{left:7px;bottom:7px}.plate .r4{right:7px;bottom:7px}
.plate p{margin:0}
.kind{text-transform:uppercase;letter-spacing:.12em;font-size:.8rem;color:$muted}
.small,.quiet{color:$muted;font-size:.9rem}
.answers{margin:1.2rem 0;border-left:5px solid $rule;padding:.1rem 0 .1rem 1rem}
.answers dt{font-weight:700;margin-top:.6rem}.answers dd{margin:.1rem 0 0}
.pairs{display:grid;grid-template-columns:minmax(7rem,max-content) 1fr;gap:.15rem .9rem}.pairs dt{color:$muted}.pairs dd{margin:0}
.finding{border:1px solid $rule;border-left-width:5px;border-radius:4px;padding:.55rem .9rem;margin:.7rem 0;break-inside:avoid}
.finding h3{margin:0}
.finding p{margin:.3rem 0 0}
.figure{float:right;margin-left:.8rem;font-weight:700;white-space:nowrap}
.m-original{color:$original}.m-later{color:$later}.m-uncertain{color:$uncertain}
.f-original{border-left-color:$original}.f-later{border-left-color:$later}.f-uncertain{border-left-color:$uncertain}
table{border-collapse:collapse;width:100%;font-size:.93rem}
caption{text-align:left;font-weight:700;padding:.3rem 0}
th,td{text-align:left;vertical-align:top;padding:.32rem .5rem .32rem 0;border-bottom:1px solid $rule;overflow-wrap:break-word}
thead{display:table-header-group}thead th{border-bottom-width:2px}
tr,figure{break-inside:avoid}
.num{text-align:right;padding-right:0;white-space:nowrap}
tbody th{font-weight:600}
figure.draw{max-width:34rem}
figure svg{display:block;width:100%;height:auto}
figcaption{font-size:.9rem;color:$muted;margin-top:.3rem}
figure img{max-width:100%;max-height:24rem;border:1px solid $rule}
ul.boxes,ul.marked{list-style:none;padding-left:0}ul.marked li{padding-left:1.3em;text-indent:-1.3em}
table.even{table-layout:fixed}table.even th:first-child{width:32%}
.box{display:inline-block;width:.85em;height:.85em;border:1.5px solid $ink;margin-right:.45em;vertical-align:-.05em}
.blank{margin:.2rem 0;padding-top:1.1rem;border-bottom:1px solid $ink}
.blank span{font-size:.85rem;color:$muted}
.item{break-inside:avoid;border-bottom:1px solid $rule;padding:.35rem 0}
.item h3{margin:0;font-size:1rem}.item p{margin:.1rem 0}
.item ul{margin:.2rem 0;padding:0;list-style:none}.item .flow li,.item li.bare{display:inline-block;margin-right:1.1rem}
.notes{height:1.5rem;border-bottom:1px dotted $rule}
ol.sources{font-size:.88rem;padding-left:2.2rem}ol.sources li{break-inside:avoid;margin:.15rem 0}
.ink{fill:$ink}.mute{fill:$muted}.line{stroke:$rule}.ground{fill:$panel}.rule{fill:$rule}
.g-original{fill:$original}.g-later{fill:$later}.g-uncertain{fill:$uncertain}
.s-original{stroke:$original}.s-later{stroke:$later}.s-uncertain{stroke:$uncertain}
@media (max-width:34rem){.plate{padding:.9rem 1.3rem}h1{font-size:1.35rem}.num{white-space:normal}
table{table-layout:fixed}td,th{padding-right:.35rem;hyphens:auto}table{font-size:.9rem}th.num{width:21%}th.num:nth-child(2){width:45%}table.even th:first-child{width:36%}
.many thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.many,.many caption,.many tbody,.many tr,.many tbody th,.many td{display:block;border:0;text-align:left}
.many tr{border-bottom:1px solid $rule;padding:.3rem 0}.many tbody th,.many td{padding:.05rem 0}
.many td[data-head]::before{content:attr(data-head) " ";color:$muted}
.finding{display:flex;flex-direction:column}.finding h3{order:-1}.figure{float:none;margin:.1rem 0 0}}
)";

constexpr std::string_view print_rules = R"(
@media print{body{font-size:10.5pt;background:none}main{max-width:none;padding:0}.skip{display:none}a{color:inherit;text-decoration:none}
.plate,.finding{background:none}.blank{padding-top:1.6rem}h2{margin-top:1.3rem}svg *{print-color-adjust:exact;-webkit-print-color-adjust:exact}
table{font-size:9pt}.tight{white-space:nowrap}table.short{break-inside:avoid}
figure.draw{max-width:none;display:flex;align-items:center}figure.draw svg{width:10.4cm;flex:none}figure.draw.plan svg{width:8cm}figure.draw figcaption{margin:0 0 0 .7cm;flex:1}}
)";

constexpr std::string_view sheet_rules = R"(
@media print{body{font-size:9pt;line-height:1.3}.plate{padding:.4rem 1.6rem}h1{font-size:1.3rem}.columns{columns:2;column-gap:7mm}h2{font-size:1.05rem;margin:.7rem 0 .2rem}
.item{padding:.25rem 0}.item h3{font-size:1.02em}.item ul{margin:.1rem 0}.notes{height:1.1rem}.blank{padding-top:1.3rem}
.small{font-size:.92em}}
)";

constexpr std::string_view compact_rules = R"(
@media print{body{font-size:8pt;line-height:1.25}.plate{padding:.2rem 1.3rem}h1{font-size:1.1rem;margin:0}.columns{columns:2;column-gap:6mm}
h2{font-size:.98rem;margin:.35rem 0 .1rem;padding:0}.item{padding:.1rem 0}.item h3,.item ul,.item p{display:inline;font-size:1em}.item .flow li{margin-right:.5rem}.item h3{margin-right:.5em}.notes{height:.35rem;border:0}
.blank{padding-top:.75rem;margin:0}p{margin:.1rem 0}.box{margin-right:.25em}}
)";

}  // namespace

double contrast(std::string_view a, std::string_view b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

std::string style_sheet(std::string_view paper, Layout layout) {
  std::string out = ":root{color-scheme:light dark}" + coloured(rules, false) + "@media screen and (prefers-color-scheme:dark){" + coloured(rules, true) + "}\n";
  out += "@page{size:" + std::string(paper) + ";margin:" + (layout == Layout::short_sheet ? "10mm 11mm" : layout == Layout::sheet ? "12mm 12mm 15mm" : "17mm 17mm 19mm") +
         ";@bottom-right{content:counter(page) \" of \" counter(pages);font-size:8pt}}";
  out += coloured(print_rules, false);
  if (layout == Layout::sheet) out += coloured(sheet_rules, false);
  if (layout == Layout::short_sheet) out += coloured(compact_rules, false);
  return out;
}

}  // namespace exworks
