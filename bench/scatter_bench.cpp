// Draws a second of `scatter` on demo/08-harbour-light.toml: every varying number drawn, the drink run to the first sip, eleven properties read, pH and
// titratable acidity among them; on one thread and on two. `run_nominal` is the same run without drawing and reading, to tell a busy machine from a slow
// program.
#include <benchmark/benchmark.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "flow/compile.hpp"
#include "flow/vary.hpp"
#include "solve/drink.hpp"

namespace {

using namespace bloomset;

std::string text_of(const std::string& name) {
  std::ifstream in(BLOOMSET_SOURCE_DIR "/demo/" + name);
  std::stringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

const flow::Flowsheet& drink() {
  static const flow::Flowsheet one = [] {
    const auto larder = larder::Larder::built_in().value();
    const auto kit = kit::Kit::built_in().value();
    base::Sources sources;
    const auto formula = formula::read("08", text_of("08-harbour-light.toml"), sources, [](const std::string& file) { return std::optional(text_of(file)); });
    if (!formula) std::exit(2);
    auto flow = flow::compile(*formula, larder, kit);
    if (!flow) std::exit(2);
    flow::vary(*flow, larder);
    return std::move(*flow);
  }();
  return one;
}

void run_nominal(benchmark::State& state) {
  const flow::Flowsheet& flow = drink();
  flow::Batch<8> batch(flow);
  std::vector<double> knobs(flow.nominal.size() * 8);
  for (std::size_t k = 0; k < knobs.size(); ++k) knobs[k] = flow.nominal[k / 8];
  for (auto _ : state) {
    flow::run<8>(flow, knobs, batch, flow::Until::service);
    benchmark::DoNotOptimize(batch.ports.data());
  }
  state.SetItemsProcessed(8 * state.iterations());
}
BENCHMARK(run_nominal);

void scatter_draws(benchmark::State& state) {
  const solve::Drink of(drink());
  const std::uint64_t draws = 100'000;
  solve::Course course;
  course.draws = draws;
  course.threads = static_cast<unsigned>(state.range(0));
  for (auto _ : state) {
    auto spread = solve::spreads(of, course);
    benchmark::DoNotOptimize(spread);
  }
  state.SetItemsProcessed(static_cast<std::int64_t>(draws) * state.iterations());
}
BENCHMARK(scatter_draws)->Arg(1)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
