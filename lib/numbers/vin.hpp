#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"

/// The 17-character vehicle identification number (VIN): ISO 3779 and, for vehicles made for the United States,
/// 49 CFR part 565. The reader says first where these rules bind; outside them nothing is called a fault.
namespace exworks {

/// Does a rule bind this vehicle?
enum class Binding { binds, does_not_bind, cannot_tell };

/// The classes that 49 CFR 565 tells apart.
enum class VinVehicle {
  unknown,
  light,  ///< car, multipurpose passenger vehicle or truck up to 4536 kg (10,000 lb)
  other   ///< heavier truck, bus, motorcycle, trailer
};

/// What is known of the vehicle besides its number.
struct VinQuestion {
  std::string made_for;  ///< country of first sale, "US"; "" when not known
  VinVehicle vehicle = VinVehicle::unknown;
  std::optional<Month> made;
};

/// One stretch of the number and what it stands for.
struct VinPart {
  std::string name, text, means;
  int first = 1, last = 1;  ///< positions, counted from 1
};

/// Something wrong with the number, and what to do about it. `position` 0 is the whole number.
struct VinFault {
  int position = 0;
  std::string what, remedy;
};

/// A year that the tenth character can stand for, and the months in which such a vehicle can have been made: from the
/// August before (judgement: about five months ahead of the calendar year) to December.
struct ModelYear {
  int year = 0;
  Month first, last;
  std::string why;
};

enum class CheckDigit { not_computed, matches, differs };

/// A VIN taken apart.
struct VinReading {
  std::string text;  ///< upper case, without spaces and hyphens
  Binding standard = Binding::cannot_tell;
  std::string standard_words;  ///< whether the 17-character rule binds, and since when it does
  std::vector<VinPart> parts;
  std::vector<VinFault> faults;
  CheckDigit check = CheckDigit::not_computed;
  int check_sum = 0;  ///< sum of value times weight
  char check_due = '\0';
  Binding check_binds = Binding::cannot_tell;
  std::string check_words;
  std::vector<ModelYear> model_years;
  Binding year_binds = Binding::cannot_tell;
  std::string year_words;
};

/// Reads `written`, in which spaces and hyphens don't count.
VinReading read_vin(std::string_view written, const VinQuestion& question = {});

/// Value of a character in the check sum of 49 CFR 565; nothing for I, O, Q and what is neither letter nor digit.
std::optional<int> vin_value(char character);

/// Weights of positions 1 to 17.
inline constexpr std::array<int, 17> vin_weights{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2};

/// The sum of value times weight; nothing unless `vin` has 17 permitted characters.
std::optional<int> vin_check_sum(std::string_view vin);

/// First-cycle year (1980 to 2009) of a tenth character; nothing for a character that is no year code.
std::optional<int> vin_first_cycle_year(char code);

}  // namespace exworks
