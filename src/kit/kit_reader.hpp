// kit/kit_reader.hpp - a kit document (TOML, docs/kit.md) taken apart, every fault of it at once. Called by Kit only.
#pragma once

#include <optional>
#include <vector>

#include "kit/kit.hpp"
#include "text/document.hpp"

namespace bloomset::kit {

struct KitDocument {
  std::vector<Vessel> vessels;
  std::vector<Place> places;
  std::optional<double> room_c, room_humidity_percent;
  std::optional<int> hands, burners;
};

/// What the document says; appends a fault for everything that is wrong with it.
KitDocument read_kit(const text::Node& root, text::Faults&);

}  // namespace bloomset::kit
