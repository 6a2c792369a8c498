#include "study/rates_file.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/foreign_json.hpp"

namespace exworks {

namespace {

using Json = nlohmann::ordered_json;

Json to_json(const std::map<std::string, LearnedRate>& rates) {
  Json out = Json::object();
  for (const auto& [id, r] : rates) out[id] = {{"rate", r.rate}, {"n", r.n}, {"changed", r.changed}};
  return out;
}

/// A negative number would wrap round.
std::size_t count_of(const Json& json, const char* name) {
  if (!json.at(name).is_number_unsigned()) throw std::invalid_argument(std::string("'") + name + "' is no count");
  return json.at(name).get<std::size_t>();
}

std::map<std::string, LearnedRate> from_json(const Json& json) {
  std::map<std::string, LearnedRate> out;
  for (const auto& [id, r] : json.items()) {
    LearnedRate rate{r.at("rate").get<double>(), count_of(r, "n"), count_of(r, "changed")};
    if (!(rate.rate >= 0) || rate.rate > 1 || rate.changed > rate.n) throw std::invalid_argument("the rate of '" + id + "' is not between 0 and 1, or more changed than were counted");
    out.emplace(id, rate);
  }
  return out;
}

std::vector<double> shares_from(const Json& json) {
  const auto shares = json.get<std::vector<double>>();
  double sum = 0;
  for (double s : shares) {
    if (!(s > 0) || s > 1) throw std::invalid_argument("a share of 'alteration' is not between 0 and 1");
    sum += s;
  }
  if (!shares.empty() && std::abs(sum - 1) > 1e-6) throw std::invalid_argument("the shares of 'alteration' don't add up to 1");
  return shares;
}

}  // namespace

std::string write_rates(const LearnedRates& r) {
  const Json out = {{"format", 2}, {"family", r.family}, {"pack_version", r.pack_version}, {"vehicles", r.vehicles}, {"prior_vehicles", r.prior_vehicles},
                    {"altered", to_json(r.altered)}, {"replaced", to_json(r.replaced)}, {"changes", to_json(r.changes)}, {"classes", to_json(r.classes)}, {"foreign", to_json(r.foreign)}, {"alteration", r.alteration}};
  return out.dump(2) + "\n";
}

LearnedRates read_rates(const std::string& text, const std::string& file, Diagnostics& diagnostics) {
  try {
    const Json json = parse_foreign_ordered(text);
    if (json.is_discarded()) throw std::invalid_argument("it is no JSON");
    if (json.at("format") != 1 && json.at("format") != 2) throw std::invalid_argument("the file's format is neither 1 nor 2");
    LearnedRates r;
    r.family = json.at("family").get<std::string>();
    r.pack_version = json.at("pack_version").get<std::string>();
    r.vehicles = count_of(json, "vehicles");
    r.prior_vehicles = json.at("prior_vehicles").get<double>();
    r.altered = from_json(json.at("altered"));
    r.replaced = from_json(json.at("replaced"));
    r.changes = from_json(json.at("changes"));
    if (json.at("format") == 1) return r;
    r.classes = from_json(json.at("classes"));
    r.foreign = from_json(json.at("foreign"));
    r.alteration = shares_from(json.at("alteration"));
    return r;
  } catch (const std::exception& e) {
    diagnostics.error({file, 0, 0}, std::string("this is no rates file: ") + e.what(), "make one with `exworks learn`");
    return {};
  }
}

}  // namespace exworks
