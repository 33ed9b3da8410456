#include "solve/whiskers.hpp"

#include "flow/compile.hpp"
#include "flow/vary.hpp"
#include "solve/drink.hpp"

namespace bloomset::solve {

base::Result<std::vector<PropertySpread>> whiskers(const Inputs& in, const Course& course) {
  auto flow = flow::compile(in.formula, in.larder, in.kit, in.serves);
  if (!flow) return tl::unexpected(std::move(flow.error()));
  flow::vary(*flow, in.larder);
  const Drink drink(*flow);
  if (drink.places().empty() || drink.numbers > SobolPoints::most_dimensions())
    return base::fail(base::ErrorKind::bad_input, "nothing liquid is made, or more varies than can be drawn: leave out --scatter", {});
  const std::vector<Spread> of = spreads(drink, course);
  return of.empty() ? std::vector<PropertySpread>{} : property_rows(drink, 1, of);
}

}  // namespace bloomset::solve
