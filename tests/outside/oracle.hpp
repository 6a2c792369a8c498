#pragma once
#include <array>
#include <map>
#include <optional>
#include <vector>

#include "oracle_pack.hpp"

/// A second, slow reading of design.md ("The model"): every latent state of a small pack is visited and weighed. It shares
/// no code with the engine and none of its short cuts: no cells, no columns, no logs.
namespace exworks::test::oracle {

/// With 15 bits of exponent: 400 factors of 0.001 are still far from its smallest number.
using Real = long double;
using Reals = std::vector<Real>;
inline constexpr std::size_t most_values = 5;  ///< four named ones and `other`

struct Build {
  std::size_t variant = 0;
  int month = 0;
  std::size_t market = 0, plant = 0;
};

/// F_f(.|b)
struct Works {
  Reals share;  ///< [value], `other` last
  bool silent = false;
};

/// What the inspection says of one look.
struct LookAnswer {
  Real p_type = 0, p_later = 0;            ///< they sum to 1
  Real type_before = 0, later_before = 0;  ///< the same without this look
  Real ratio = 0;                          ///< P(look | type as built, all else) / P(look | later, all else)
  Real p_untouched = 0;                    ///< neither altered by itself, nor from a donor, nor set by an outside change
  Real p_silent = 0, p_type_spoken = 0;
  Reals there, works;  ///< [value]
};

struct AssemblyAnswer {
  Real p_replaced = 0;
  Reals donor;    ///< [build], given that it was replaced
  Reals outside;  ///< [outside of the pack], given that it was replaced
};

struct Answer {
  Reals build;  ///< [build]: posterior
  Real evidence = 0;
  std::vector<LookAnswer> looks;
  std::vector<AssemblyAnswer> assemblies;  ///< [assembly]
  Real p_own = 0;  ///< P(the identity number is the vehicle's own); 0 where none is read
};

/// The identity number is the vehicle's own, read in one way, or it is not.
struct World {
  bool own = false;
  Reals weight;                           ///< [build]: P(this, and the number as written | b)
  std::vector<std::vector<Works>> works;  ///< [feature][build]: changeovers that are known by number go by it
};

/// How the parts of an assembly came to be there.
struct Way {
  Real p = 1;
  std::optional<std::size_t> donor, outside;  ///< neither: it was not replaced
};

/// P(state of one looked-at feature) given the build and the way, summed by whether the type is as built.
struct Split {
  Real type = 0, later = 0;                ///< with the look
  Real type_before = 0, later_before = 0;  ///< without it
  Real untouched = 0;                      ///< with the look
  std::array<Real, most_values> there{};   ///< [value], with the look
};

/// One way with the splits of the unit's looks, which are independent of each other given the build and the way.
struct State {
  Way way;
  std::vector<Split> splits;
};

/// Share of the builds of a month made after a change; `absent` where there is no edge.
Real ramp(const std::optional<Window>& edge, int month, Real absent);

class Model {
 public:
  Model(const SmallPack& pack, const Visit& visit);

  const std::vector<Build>& builds() const { return builds_; }
  const Reals& prior() const { return prior_; }
  /// F_f(.|b), by date
  const Works& works(std::size_t feature, std::size_t build) const { return works_[feature][build]; }
  /// R_f(.|b): [value]
  const Reals& changed(std::size_t feature, std::size_t build) const { return changed_[feature][build]; }
  /// P(what was noted | each value that may be there): [value]
  const Reals& slips(std::size_t look) const { return slips_[look]; }
  /// Those of the pack, then those that stand for the serials of numbers.
  const std::vector<Feature>& features() const { return pack_.features; }
  /// Those of the visit, then those that are numbers.
  const std::vector<Look>& looks() const { return visit_.looks; }
  /// e_f
  Real altered(std::size_t feature) const;
  /// What may have become of an assembly of a build; of a feature that is in none, only that it was not replaced.
  std::vector<Way> ways(std::optional<std::size_t> assembly, std::size_t build) const;

  Answer answer() const;
  /// The papers and claims that weigh, in the order of the inspection.
  std::vector<Paper> papers() const;
  /// P(the paper speaks of this vehicle and is right), by the posterior over the builds.
  Real paper_right(const Paper& paper, const Reals& posterior) const;
  /// P(all of the claim)
  Real claim_odds(const Claim& claim, const Reals& posterior) const;
  /// P(month | the identity number alone, taken as the vehicle's own), from month 0; empty where none can be read or it fits no build.
  Reals months_by_number() const;
  /// Originality, 0 to 1, with its probability; looks on which the pack is silent (more likely than not) are left out.
  /// Empty when no weight is left.
  std::map<Real, Real> score(const Answer& answer) const;

 private:
  /// The looks of one assembly, or one look at a feature of none.
  struct Unit {
    std::optional<std::size_t> assembly;
    std::vector<std::size_t> looks;
  };

  bool covers(const Scope& scope, const Build& build) const;
  void list_builds();
  std::vector<std::pair<Build, Real>> builds_of_month(std::size_t variant, int month) const;
  Real months_made(std::size_t variant) const;
  void apply_volumes();
  Works fitted(const Feature& feature, const Build& build, std::optional<Serial> serial) const;
  Real asked(const Feature& feature, std::size_t line, const Build& build) const;
  Real lawful_share(const Feature& feature, const Build& build) const;
  Reals by_law(const Feature& feature, const Build& build) const;
  Reals changed_to(const Feature& feature, const Build& build) const;
  Reals slips_of(const Look& look) const;
  void list_units();
  bool weighs(const Paper& paper) const;
  Real unspecific() const;
  Real paper_weight(const Paper& paper, std::size_t build) const;
  bool claimed(const Claim& claim, const Build& build) const;
  void weigh_papers();

  const NumberText* identity_text() const;
  Real form_share(const Number& number, std::size_t form, const Build& build) const;
  Real code_share(const Part& part, std::size_t read, const Build& build) const;
  Real serial_share(const Number& number, const Reading& reading, const Build& build) const;
  Real own_share(const Number& number, const Reading& reading, const Build& build) const;
  Real stranger_share(const Number& number, const Reading& reading) const;
  void list_worlds();
  Works range_shares(const Number& number, const Build& build) const;
  void look_at_numbers();

  bool may_donate(const Assembly& assembly, std::size_t variant, std::size_t donor) const;
  std::optional<std::size_t> set_by(const Way& way, std::size_t feature) const;
  Split split(std::size_t look, std::size_t build, const Way& way, const World& world) const;
  std::vector<State> states(const Unit& unit, std::size_t build, const World& world) const;
  void add_unit(const Unit& unit, std::size_t build, const World& world, const std::vector<State>& states, Real rest,
                Answer& answer) const;
  void add_world(const World& world, Answer& answer) const;
  std::map<int, Real> weights_as_built(const Unit& unit, std::size_t build, const World& world,
                                      const std::vector<bool>& counted) const;

  SmallPack pack_;
  Visit visit_;
  std::vector<Build> builds_;
  Reals prior_;                              ///< [build], sums to 1
  std::vector<std::vector<Works>> works_;    ///< [feature][build]: by date
  std::vector<std::vector<Reals>> changed_;  ///< [feature][build][value]
  std::vector<Reals> slips_;                 ///< [look][value there]
  std::vector<Unit> units_;
  Reals weight_;  ///< [build]: P(papers | b), 0 where it is not what is given
  std::vector<World> worlds_;
};

}  // namespace exworks::test::oracle
