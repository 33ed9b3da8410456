// checks/texture_gelatin.cpp - answers about gelatin: conversion by every rule, apparent Bloom, force, ratio of firmness.
#include <limits>

#include "texture/form.hpp"
#include "texture_ops.hpp"

namespace bloomset::checks {
namespace {

using namespace units;

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

std::optional<Mass> leaf(const Given& in, std::string_view key) {
  if (!in.has(key)) return std::nullopt;
  return grams(in.number(key));
}

double gelatin_convert(const Given& in, std::string_view column) {
  texture::Form from, to;
  from.bloom = in.number("bloom_from");
  to.bloom = in.number("bloom_to");
  from.leaf = leaf(in, "piece_from_g");
  to.leaf = leaf(in, "piece_to_g");
  const texture::Conversion converted = texture::convert(grams(in.number("mass_g")), from, to);
  for (const texture::Converted& rule : converted.rules)
    if (texture::name(rule.rule) == column) return rule.mass ? in_grams(*rule.mass) : unknown;
  return unknown;
}

double bloom_apparent(const Given& in, std::string_view column) {
  if (column != "bloom") return unknown;
  return texture::apparent_bloom(in.number("bloom"), grams(in.number("nominal_g")), grams(in.number("used_g")));
}

double gelatin_force(const Given& in, std::string_view column) {
  if (column != "force_g") return unknown;
  return texture::gelatin_force_g(mass_percent(in.number("percent")), in.number("bloom"), mass_percent(in.number("reference_percent")), in.number("exponent"));
}

double firmness_ratio(const Given& in, std::string_view column) {
  if (column != "ratio") return unknown;
  return texture::firmness_ratio(mass_percent(in.number("percent_a")), in.number("bloom_a"), mass_percent(in.number("percent_b")), in.number("bloom_b"),
                                 mass_percent(in.number("c0_percent")));
}

constexpr Op ops[] = {
    {"gelatin_convert", gelatin_convert}, {"bloom_apparent", bloom_apparent}, {"gelatin_force", gelatin_force}, {"firmness_ratio", firmness_ratio}};

}  // namespace

std::span<const Op> gelatin_ops() { return ops; }

}  // namespace bloomset::checks
