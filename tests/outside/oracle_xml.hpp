#pragma once
#include <string>

#include "oracle_visit.hpp"

/// The structs as text that the engine reads (rules/FORMAT.md).
namespace exworks::test::oracle {

std::string pack_xml(const SmallPack& pack);
/// `more`: further lines of the inspection.
std::string visit_xml(const SmallPack& pack, const Visit& visit, const std::string& more = "");
/// The condition as the command takes it.
std::vector<std::string> given_words(const Visit& visit);
/// The requirements of one country as a file.
std::string laws_xml(const SmallPack& pack, const std::string& country);

/// Papers and claims as lines of the inspection.
std::string papers_xml(const Visit& visit);
/// The numbers as lines of the pack, and of the inspection.
std::string numbers_xml(const SmallPack& pack);
std::string number_texts_xml(const Visit& visit);
/// A feature and a conversion as lines of the pack.
std::string feature_xml(const SmallPack& pack, std::size_t f);
std::string conversion_xml(const SmallPack& pack, std::size_t j);

// Pieces that every writer needs.
std::string number(double x);
std::string id(char letter, std::size_t i);
std::string value_id(const Feature& feature, std::size_t value);
/// "w0 w2"
std::string value_ids(const Feature& feature, const std::vector<std::size_t>& values);
/// "v0 v2"
std::string ids(char letter, const std::vector<bool>& members);
/// "1952-03"
std::string iso(int month);
/// The shortest form of ISO 8601-2 that says it.
std::string edge(const Window& window);
/// ` name="..."`
std::string attribute(const std::string& name, const std::string& value);
/// The members, or what is left after taking the others away (where there are fewer of those).
std::string members(const std::string& name, char letter, const std::vector<bool>& axis);
std::string scope(const Scope& s);
std::string edges(const std::optional<Window>& from, const std::optional<Window>& to, bool dots);

}  // namespace exworks::test::oracle
