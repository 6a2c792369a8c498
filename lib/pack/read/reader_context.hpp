#pragma once
#include <set>
#include <string>
#include <vector>

#include "law/requirement_files.hpp"
#include "pack/model/pack.hpp"
#include "xml/common_lines.hpp"

/// Inside the pack reader: the pack under construction, the ids met so far, and the helpers that its parts share.
namespace exworks {

struct ReaderContext {
  Pack& pack;
  Diagnostics& diagnostics;
  Ids sources{"source"}, places{"place"}, cautions{"caution"}, markets{"market"}, plants{"plant"}, generations{"generation"},
      bodies{"body"}, variants{"variant"}, assemblies{"assembly"}, features{"feature"}, later_changes{"later change"}, conversions{"conversion"}, numbers{"number"};
  Ids questions{"question"};
  std::vector<Ids> answers{};  ///< by question
  std::vector<Ids> values{};  ///< by feature
  std::vector<Element> additions{};  ///< `<add feature="...">` of packs that extend another
  std::optional<RequirementFiles> law{};  ///< see requirement_files()
  std::set<std::string> of_format_1{};  ///< names of files
  bool axes_sound = true;     ///< a mistake in a market, plant or variant would make many a scope look empty

  /// Of ../market; the markets of the pack must have been read.
  RequirementFiles& requirement_files();
  /// An attribute that format 1 had and that means nothing any more: a note there, a mistake in format 2.
  void retired(const Element& element, std::string_view name, const std::string& instead);

  /// The axis members named by a list of words with `*` and `!`; all of `ids` when there is no such attribute.
  AxisSet members(const Attributes& attributes, std::string_view name, const Ids& ids);
  /// The scope attributes of an element. Reports a scope in which no vehicle was ever built.
  Scope scope(const Attributes& attributes);
  std::vector<std::size_t> references(const Attributes& attributes, std::string_view name, const Ids& ids);
  /// The `source` attribute of something that must have one.
  std::vector<std::size_t> cited(const Attributes& attributes, bool required);
  std::optional<std::size_t> reference(const Attributes& attributes, std::string_view name, const Ids& ids, bool required);
  /// A value of a feature; `other` is the index after the last.
  std::optional<ValueIndex> value_of(FeatureIndex feature, const std::string& id, const Place& place);
};

inline const std::vector<std::string_view> scope_attributes{"generations", "variants", "bodies", "markets", "plants"};
std::vector<std::string_view> with_scope(std::vector<std::string_view> names);

/// The attributes of a line that may override one of the pack which this one extends.
inline const std::vector<std::string_view> override_attributes{"overrides", "reason"};
std::vector<std::string_view> with_override(std::vector<std::string_view> names);
/// Reports an override without a reason, and a reason without an override.
void check_override(const Attributes& attributes);

void read_source(ReaderContext& context, const Element& element);
void read_place(ReaderContext& context, const Element& element);
void read_caution(ReaderContext& context, const Element& element);
void read_term(ReaderContext& context, const Element& element);
void read_rates(ReaderContext& context, const Element& element);
void read_question(ReaderContext& context, const Element& element);
void read_hallmark(ReaderContext& context, const Element& element);
void read_market(ReaderContext& context, const Element& element);
void read_plant(ReaderContext& context, const Element& element);
void read_generation(ReaderContext& context, const Element& element);
void read_body(ReaderContext& context, const Element& element);
void read_variant(ReaderContext& context, const Element& element);
void read_volume(ReaderContext& context, const Element& element);
void read_assembly(ReaderContext& context, const Element& element);
void read_feature(ReaderContext& context, const Element& element);
/// A fact of this feature; one that was `added` by a pack that extends another may override one.
void read_fact_of(ReaderContext& context, const Element& element, FeatureIndex index, Feature& feature, bool added);
/// Reports additions to a feature that is not there.
void check_additions(ReaderContext& context);
void read_assembly_change(ReaderContext& context, const Element& element);
void read_conversion(ReaderContext& context, const Element& element);
/// `<share market= from= to= share=/>`: another share of a market in some years.
void read_share(ReaderContext& context, const Element& element);
void read_number(ReaderContext& context, const Element& element);

/// `<legal requirement="GB-020" value="fitted"/>` inside a feature: the value that a dated requirement asked for, as a fact
/// that binds where the pack is silent.
std::optional<Fact> read_legal(ReaderContext& context, const Element& element, FeatureIndex feature);

}  // namespace exworks
