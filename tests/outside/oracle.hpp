#pragma once
#include <functional>
#include <map>
#include <memory>

#include "oracle_visit.hpp"
#include "oracle_ways.hpp"

/// A second, slow reading of the arithmetic (rules/FORMAT.md and the handbook's page on it): every latent state of a small pack
/// is visited and weighed. It shares no code with the engine and none of its short cuts: no cells, no columns, no logs.
namespace exworks::test::oracle {

/// What the inspection says of one look.
struct LookAnswer {
  Real p_type = 0, p_later = 0;            ///< they sum to 1
  Real type_before = 0, later_before = 0;  ///< the same without this look
  Real ratio = 0;                          ///< P(look | type as built, all else) / P(look | later, all else)
  Real p_untouched = 0;  ///< neither altered by itself, nor from a donor, nor set by an outside change or a conversion
  Real p_silent = 0, p_type_spoken = 0;
  Reals there, works;                   ///< [value]
  std::map<Reason, Real> explanations;  ///< given that it is not of the type as built; they sum to 1
};

struct AssemblyAnswer {
  Real p_replaced = 0;
  Reals donor;         ///< [build], given that it was replaced
  Reals outside;       ///< [outside of the pack], given that it was replaced
  Real p_unnamed = 0;  ///< given that it was replaced
};

struct Answer {
  Reals build;                  ///< [build]: posterior
  Reals with_offset;            ///< [world x build]: posterior of the build with the offset (and the reading)
  std::array<Real, 4> level{};  ///< [level]
  Reals conversion;             ///< [conversion]: P(it was had)
  Real evidence = 0;
  std::vector<LookAnswer> looks;
  std::vector<AssemblyAnswer> assemblies;  ///< [assembly]
  Real p_own = 0;                          ///< P(the identity number is the vehicle's own); 0 where none is read
};

/// The identity number is the vehicle's own, read in one way, or it is not; and all dates of the pack are off by the same months.
struct World {
  bool own = false;
  Reals weight;                           ///< [build]: P(b) P(this, and the number as written | b) P(papers | b)
  std::vector<std::vector<Works>> works;  ///< [feature][build]: changeovers that are known by number go by it
  std::vector<std::vector<Changed>> changed;  ///< [feature][build]: what a change leaves there, by those works
  std::vector<std::size_t> like;              ///< [build]: the build as which it looks
  std::size_t reading = 0;                    ///< worlds that differ by the offset alone have the same
};

/// The looks of one assembly, or one look at a feature of none.
struct Unit {
  std::optional<std::size_t> assembly;
  std::vector<std::size_t> looks;
};

/// P(state of one looked-at feature) given the build and the way, summed by whether the type is as built.
struct Split {
  Real type = 0, later = 0;                         ///< with the look
  Real type_before = 0, later_before = 0;           ///< without it
  Real untouched = 0;                               ///< with the look
  Shares there{};                                   ///< [value], with the look
  std::vector<std::pair<Reason, Real>> later_by{};  ///< `later` by reason
};

/// One way with the splits of the unit's looks, which are independent of each other given the build and the way.
struct State {
  Way way;
  std::vector<Split> splits;
};
using States = std::vector<State>;

/// What is not summed over the ways: all of it but these.
struct Life {
  const World* world = nullptr;
  std::size_t build = 0, level = 0;
  Had had = 0;
  Real p = 0;  ///< P(it, number, papers), before the looks
};

class Model {
 public:
  Model(const SmallPack& pack, const Visit& visit);

  const PackTables& tables() const { return *tables_; }
  const std::vector<Build>& builds() const { return tables_->builds().list; }
  const std::vector<Feature>& features() const { return tables_->pack().features; }
  /// Those of the visit, then those that are numbers.
  const std::vector<Look>& looks() const { return looks_; }
  const std::vector<World>& worlds() const { return *worlds_; }
  /// P(what was noted | each value that may be there): [value]
  const Reals& noted(std::size_t look) const { return noted_[look]; }

  /// The same inspection with one look more, one less, or one that notes another thing.
  Model with(const Look& look) const;
  Model without(std::size_t look) const;
  Model noting(const std::vector<std::size_t>& values) const;

  /// Can any build be what the number, the papers and the conditions say?
  bool possible() const;
  Answer answer() const;
  /// P(all that was noted, number and papers | world, build, level) and the odds of those: [world][build][level].
  struct Likelihood {
    Real before = 0, looks = 0;
  };
  std::vector<Likelihood> likelihoods() const;
  /// Originality, 0 to 1, with its probability; looks on which the pack is silent (more likely than not) are left out.
  /// Empty when no weight is left.
  std::map<Real, Real> score(const Answer& answer) const;

  /// The papers and claims that weigh, in the order of the inspection.
  std::vector<Paper> papers() const;
  /// P(the paper speaks of this vehicle and is right), by the posterior over the builds.
  Real paper_right(const Paper& paper, const Reals& posterior) const;
  /// P(all of the claim)
  Real claim_odds(const Claim& claim, const Reals& posterior) const;
  /// P(month | the identity number alone, taken as the vehicle's own), from month 0; empty where none can be read or it fits no
  /// build.
  Reals months_by_number() const;

 private:
  const SmallPack& pack() const { return tables_->pack(); }
  bool covers(const Scope& scope, const Build& build) const { return oracle::covers(pack(), scope, build); }
  void bind();
  void list_units();
  Had setting(const Unit& unit) const;

  bool weighs(const Paper& paper) const;
  Real unspecific() const;
  Real paper_weight(const Paper& paper, std::size_t build) const;
  bool claimed(const Claim& claim, const Build& build) const;
  Reals papers_weight() const;

  const NumberText* identity_text() const;
  Real form_share(const Number& number, std::size_t form, const Build& build) const;
  Real code_share(const Part& part, std::size_t read, const Build& build) const;
  Real serial_share(const Number& number, const Reading& reading, const Build& build) const;
  Real own_share(const Number& number, const Reading& reading, const Build& build) const;
  Real stranger_share(const Number& number, const Reading& reading) const;
  Real not_own(const NumberText& text) const;
  std::vector<World> worlds_by_number() const;
  std::vector<World> list_worlds() const;
  void look_at_numbers();

  Split split(std::size_t look, const Life& life, const Way& way) const;
  States states(const Unit& unit, const Life& life) const;
  using Visitor = std::function<void(const Life&, const std::vector<const States*>&)>;
  void each_life(const Visitor& visit) const;
  void add_looks(const Unit& unit, const Life& life, const State& state, Real rest, Answer& answer) const;
  void add_life(const Life& life, const std::vector<const States*>& states, Answer& answer) const;

  Visit visit_;
  std::shared_ptr<const PackTables> tables_;
  std::vector<Look> looks_;
  std::vector<Reals> noted_;  ///< [look][value there]
  std::vector<Unit> units_;
  std::shared_ptr<const std::vector<World>> worlds_;
};

/// The build as which another looks where the line's changes came so many months later than the pack has them.
std::size_t looks_like(const std::vector<Build>& builds, std::size_t build, int later);

/// P(the looks of the unit | life)
Real likelihood(const States& states);

}  // namespace exworks::test::oracle
