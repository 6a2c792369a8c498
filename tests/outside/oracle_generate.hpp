#pragma once
#include "oracle_dice.hpp"
#include "oracle_visit.hpp"

/// Packs and inspections by chance: small, but with every construct that the arithmetic speaks of.
namespace exworks::test::oracle {

inline constexpr int year_1952 = 24;  ///< the first month in which anything is built
inline constexpr int last_month = year_1952 + 20;
inline constexpr Window always{-1000, 1000};

/// A pack of 2-4 variants with 3-7 features.
SmallPack random_pack(Dice& dice);
/// A pack of 2 variants with this many features, all in one assembly or in none.
SmallPack long_pack(Dice& dice, std::size_t features, bool one_assembly);
/// A pack of 2 variants of 3 months with three features, two of them of one assembly: small enough to visit all that could be
/// noted.
SmallPack tiny_pack(Dice& dice);
/// Looks at about this share of the features; a look may leave several values open.
Visit random_visit(const SmallPack& pack, Dice& dice, double share);

/// Takes away what speaks of no vehicle; a value that nothing leads to any more gets a later change.
void tidy(SmallPack& pack);
/// Was any vehicle built in both scopes and the period?
bool any_built(const SmallPack& pack, const Scope& scope, const Scope& also = {}, const Window& period = always);

// Parts of a pack by chance.
void add_axes(SmallPack& pack, Dice& dice);
void add_volumes(SmallPack& pack, Dice& dice);
void add_share_rows(SmallPack& pack, Dice& dice);
void add_facts(const SmallPack& pack, Feature& feature, Dice& dice);
/// Of one variant, market, body or generation nothing is said.
void fall_silent(const SmallPack& pack, Feature& feature, Dice& dice);
void add_feature(SmallPack& pack, Dice& dice, std::optional<std::size_t> assembly);
void add_assemblies(SmallPack& pack, Dice& dice);
void add_outsides(SmallPack& pack, Dice& dice);
/// Up to three, some of which set the same feature.
void add_conversions(SmallPack& pack, Dice& dice);
void change_rates(PackRates& rates, Dice& dice);

/// The axes of a scope by number, so that chance can choose one.
std::vector<bool>& axis(Scope& scope, std::size_t i);
std::size_t size_of_axis(const SmallPack& pack, std::size_t i);
std::vector<bool> only(std::size_t n, std::size_t i);
Scope random_scope(const SmallPack& pack, Dice& dice, double everything);
/// An edge that begins in this month: plain, a window, or rarely a whole year.
Window random_edge(Dice& dice, int first);

/// Adds papers and claims, and now and then a condition that some build meets.
void add_papers(const SmallPack& pack, Dice& dice, Visit& visit);

/// Plants that open late, close early and serve few markets; windows whose last month is in doubt.
void close_plants(SmallPack& pack, Dice& dice);
/// Adds an identity number, others, and changeovers tied to the first.
void add_numbers(SmallPack& pack, Dice& dice);
/// Writes some of the pack's numbers, with slips, and now and then whether the identity number is given as the vehicle's own.
void add_number_texts(const SmallPack& pack, Dice& dice, Visit& visit);

/// Countries, classes, requirements of law, and legal lines in the features.
void add_laws(SmallPack& pack, Dice& dice);

}  // namespace exworks::test::oracle
