// solve/swap.hpp - what one swap changes in a document's text: each take of the thing is written anew where it stands, and names of what is strained out with
// it.
//
// Amounts are first ones: as much as brings what the old thing was there for. Percentages stay shares, counts of liquids become grams, dashes stay dashes.
// A bottle moves its part by sheet/scaling.hpp. Private to solve; called by refit.
#pragma once

#include "flow/run.hpp"
#include "solve/refit.hpp"

namespace bloomset::solve {

/// A document as it came out: read, compiled and run to service.
struct Cooked {
  base::Sources sources;
  formula::Formula formula;
  flow::Flowsheet flow;
  flow::Batch<1> batch;
  Cooked(base::Sources from, formula::Formula read, flow::Flowsheet made)
      : sources(std::move(from)), formula(std::move(read)), flow(std::move(made)), batch(flow) {
    flow::run<1>(flow, flow.nominal, batch, flow::Until::service);
  }
};
/// Errors: the document's, in words of a swap.
base::Result<std::unique_ptr<Cooked>> cook(const RefitAsked&, const std::string& document);

/// A take whose thing is another now. Counted from 1, the serve is the last part, as in flow::Origin.
struct Swapped {
  flow::Origin at;
  bool water_before = false;  // a take of water was put before it
  bool balanced = false;      // its amount answers to the drink (gelatin's does not)
};

struct Changes {
  std::vector<base::Edit> edits;
  std::vector<Swapped> takes;
  std::vector<Vary> vary;  // made things, whose amounts would stay else
  std::vector<base::Finding> findings;
};

/// A swap of a bought thing or a part, gelatin among them. Nothing, with faults, where the document takes no such thing.
bool swap_thing(const RefitAsked&, const Swap&, const Cooked&, Changes&, std::vector<base::Diagnostic>& faults);

/// Whether strength, sugar, acidity or size answers to a thing: it brings ethanol, sugar or acid, or is water. Egg white and cream keep their place.
bool shapes(const larder::Thing&);

/// The parts that are charged in a bottle of that name, by index.
std::vector<std::size_t> parts_in(const formula::Formula&, std::string_view bottle);
/// Each of them as large as fills the other one, its takes whole or rounded to what a kitchen measures.
base::Result<Changes> swap_bottle(const RefitAsked&, const Swap&, const Cooked&);

}  // namespace bloomset::solve
