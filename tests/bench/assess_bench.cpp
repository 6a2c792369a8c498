#include <chrono>
#include <cstdio>
#include <filesystem>

#include "base/file.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/read/pack_reader.hpp"
#include "record/inspection_reader.hpp"
#include "report/kinds/console.hpp"

/// How long the parts of `exworks assess` take, pack by pack. Figures for people; nothing passes or fails by them.
/// Beside it: xmllint --noout on the same files, by hand (DEVELOPERS.md).
int main() {
  using namespace exworks;
  using Clock = std::chrono::steady_clock;
  const auto ms = [](Clock::time_point a, Clock::time_point b) { return std::chrono::duration<double, std::milli>(b - a).count(); };
  const std::filesystem::path root = EXWORKS_SOURCE_DIR;
  for (const auto& entry : std::filesystem::directory_iterator(root / "sample-vehicles")) {
    if (entry.path().extension() != ".xml") continue;
    Diagnostics d;
    const auto inspection = read_inspection(read_file(entry.path()), entry.path().string(), d);
    if (!inspection) continue;
    const auto t0 = Clock::now();
    const auto pack = read_pack(root / "rules" / inspection->family, d);
    if (!pack) continue;
    const auto t1 = Clock::now();
    const Tables tables = *compile(*pack, d);
    const auto t2 = Clock::now();
    const auto full = assess(tables, *inspection, Settings{}, Given{}, d);
    const auto t3 = Clock::now();
    Settings quick;
    quick.fit_draws = 0;
    quick.readings = quick.hinges = false;
    const auto bare = assess(tables, *inspection, quick, Given{}, d);
    const auto t4 = Clock::now();
    if (!full || !bare) continue;
    std::printf("%-45s read %6.1f ms  compile %6.1f ms  assess %6.1f ms  (bare %5.1f ms)  %zu builds, %zu cells\n", entry.path().filename().c_str(), ms(t0, t1), ms(t1, t2),
                ms(t2, t3), ms(t3, t4), tables.builds(), tables.cells());
  }
}
