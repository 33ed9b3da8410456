// solve/drink.hpp - a flowsheet with its variations as an experiment: uniform numbers in, properties out. Private to solve.
#pragma once

#include "flow/flowsheet.hpp"
#include "flow/run.hpp"
#include "solve/experiment.hpp"

namespace bloomset::solve {

/// Where properties are read. The first place is read from every draw.
struct Place {
  std::string where;
  flow::Port liquid = flow::no_port, ice = flow::no_port;
  std::vector<flow::Port> foams;  // collapsed into it
};

/// A group of variations that are swapped together.
struct Group {
  std::string words;                      // of a cause; empty: of a ground
  std::vector<std::uint32_t> variations;  // into Flowsheet::variation
};

class Drink final : public Experiment {
 public:
  /// The flowsheet outlives the experiment.
  explicit Drink(const flow::Flowsheet&);
  std::unique_ptr<Worker> worker() const override;

  static std::span<const matter::Property> properties();
  const std::vector<Place>& places() const { return places_; }
  /// Causes in the order in which the flow meets them, then one group a ground.
  const std::vector<Group>& groups_of() const { return groups_; }
  std::size_t causes() const { return groups_.size() - flow::ground_count; }

 private:
  friend class DrinkWorker;
  const flow::Flowsheet& flow_;
  std::vector<Place> places_;
  std::vector<Group> groups_;
  // What an answer needs: units, the variations that move them, and the draws behind these.
  struct Reach {
    std::vector<std::uint32_t> units, variations, draws;
  };
  Reach reach_of(std::vector<std::uint32_t> units) const;
  Reach brief_, all_;
  std::vector<std::vector<std::uint32_t>> swap_units_;  // a group: what it and the group before it change
};

/// A uniform number as standard deviations of a normal law cut at four of them.
double deviations(double u);
matter::Lanes deviations(const matter::Lanes& u);
/// Where a variation stands at so many deviations.
double at_deviations(const flow::Variation&, double nominal, double z);
matter::Lanes at_deviations(const flow::Variation&, double nominal, const matter::Lanes& z);

}  // namespace bloomset::solve
