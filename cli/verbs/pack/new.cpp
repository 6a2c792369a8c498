#include <unistd.h>

#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>

#include "author/fact_table.hpp"
#include "author/new_pack.hpp"
#include "base/file.hpp"
#include "base/text.hpp"
#include "command.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

namespace {

namespace fs = std::filesystem;

/// The usage was wrong; `what` has been worded for the user.
struct Refused {
  std::string what;
};

/// A line from the terminal; the question goes to standard error, so that standard output keeps the answer only.
std::string ask(const std::string& question) {
  std::cerr << question << ' ' << std::flush;
  std::string line;
  if (!std::getline(std::cin, line)) return {};
  return fold_space(line);
}

/// Lines until an empty one.
std::vector<std::string> ask_for_several(const std::string& first, const std::string& another) {
  std::vector<std::string> out;
  for (std::string line = ask(first); !line.empty(); line = ask(another)) out.push_back(line);
  return out;
}

void ask_for_the_rest(PackNewArguments& o) {
  if (isatty(STDIN_FILENO) != 1) return;
  if (o.name.empty()) o.name = ask("What is the family called?");
  if (o.markets.empty()) o.markets = ask_for_several("A market and its steering, such as  Home market:right ?", "Another market (empty line: no more)?");
  if (o.variants.empty()) o.variants = ask_for_several("A variant and its first and last month, such as  Series 1 van=1951-03/1955-06 ?", "Another variant (empty line: no more)?");
}

NewMarket market(const std::string& text) {
  const std::size_t colon = text.rfind(':');
  const std::string side = colon == std::string::npos ? "" : fold_space(text.substr(colon + 1));
  if (side != "left" && side != "right") throw Refused{"market '" + text + "' doesn't say where the steering wheel is; write it as \"Home market:right\""};
  NewMarket m{fold_space(text.substr(0, colon)), side};
  if (id_from_name(m.name).empty()) throw Refused{"market '" + text + "' has no name; write it as \"Home market:right\""};
  return m;
}

NewVariant variant(const std::string& text) {
  const std::size_t equals = text.rfind('='), slash = text.find('/', equals == std::string::npos ? 0 : equals);
  const char* remedy = "; write it as \"Series 1 van=1951-03/1955-06\"";
  if (equals == std::string::npos || slash == std::string::npos) throw Refused{"variant '" + text + "' doesn't say from when to when it was built" + remedy};
  NewVariant v{fold_space(text.substr(0, equals)), fold_space(text.substr(equals + 1, slash - equals - 1)), fold_space(text.substr(slash + 1))};
  if (id_from_name(v.name).empty()) throw Refused{"variant '" + text + "' has no name" + remedy};
  const auto from = parse_edge(v.from, nullptr), to = parse_edge(v.to, nullptr);
  if (!from || !to || from->open || to->open) throw Refused{"'" + (from && !from->open ? v.to : v.from) + "' is no month or year" + remedy};
  if (to->last < from->first) throw Refused{"variant '" + v.name + "' ends before it begins; swap the dates"};
  return v;
}

NewPack wanted(const PackNewArguments& o) {
  NewPack pack{o.id, o.name.empty() ? o.id : o.name, {}, {}};
  if (id_from_name(o.id) != o.id) throw Refused{"'" + o.id + "' can't be a pack's id; use lower-case letters, digits and hyphens, such as " + (id_from_name(o.id).empty() ? "my-family" : id_from_name(o.id))};
  for (const std::string& text : o.markets) pack.markets.push_back(market(text));
  for (const std::string& text : o.variants) pack.variants.push_back(variant(text));
  if (pack.markets.empty()) throw Refused{"a pack needs a market; add --market \"Home market:right\""};
  if (pack.variants.empty()) throw Refused{"a pack needs a variant; add --variant \"Series 1 van=1951-03/1955-06\""};
  const auto unique = [](const auto& items, const std::string& kind) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (id_from_name(items[i].name) == id_from_name(items[j].name)) throw Refused{kind + " '" + items[i].name + "' is named twice; give each another name"};
      }
    }
  };
  unique(pack.markets, "market");
  unique(pack.variants, "variant");
  return pack;
}

}  // namespace

int run(PackNewArguments options) {
  ask_for_the_rest(options);
  NewPack pack;
  try {
    pack = wanted(options);
  } catch (const Refused& refused) {
    tell(refused.what);
    return bad_usage;
  }
  const fs::path folder = options.folder.empty() ? fs::path(pack.id) : fs::path(options.folder) / pack.id;
  refuse_existing(folder / "pack.xml", options.overwrite);
  std::error_code code;
  fs::create_directories(folder, code);
  write_file(folder / "pack.xml", new_pack_text(pack));
  if (options.json) print_json(nlohmann::ordered_json{{"family", pack.id}, {"file", (folder / "pack.xml").string()}});
  else std::cout << (folder / "pack.xml").string() << ": a pack with one feature; add yours, then run exworks pack check " << folder.string() << '\n';
  return done;
}
}  // namespace exworks::cli
