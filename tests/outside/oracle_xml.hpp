#pragma once
#include <optional>
#include <string>
#include <vector>

#include "oracle_pack.hpp"

/// Pieces of XML that every writer of the oracle needs.
namespace exworks::test::oracle {

std::string number(double x);
std::string id(char letter, std::size_t i);
std::string value_id(const Feature& feature, std::size_t value);
/// "1952-03"
std::string iso(int month);
/// The shortest form of ISO 8601-2 that says it.
std::string edge(const Window& window);
/// ` name="..."`
std::string attribute(const std::string& name, const std::string& value);
std::string scope(const Scope& s);
std::string edges(const std::optional<Window>& from, const std::optional<Window>& to, bool dots);

}  // namespace exworks::test::oracle
