// Speed of the four things a page waits for, on bench/large.toml: run, read, one whole sheet, and compile alone.
// `./run bench` prints medians over 1,000 repetitions of one call each, release build.
#include <benchmark/benchmark.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "flow/compile.hpp"
#include "flow/run.hpp"
#include "press/press.hpp"
#include "sheet/sheet.hpp"
#include "solve/balance.hpp"

namespace {

using namespace bloomset;

struct Bench {
  larder::Larder larder = larder::Larder::built_in().value();
  kit::Kit kit = kit::Kit::built_in().value();
  std::string text;
  base::Sources sources;
  formula::Formula formula;
  flow::Flowsheet sheet;
};

const Bench& bench() {
  static const Bench one = [] {
    Bench b;
    std::ifstream in(BLOOMSET_SOURCE_DIR "/bench/large.toml");
    std::stringstream whole;
    whole << in.rdbuf();
    b.text = whole.str();
    auto formula = formula::read("large.toml", b.text, b.sources, {});
    if (!formula) {
      std::fputs((formula.error().message + "\n" + base::render(formula.error().diagnostics, b.sources)).c_str(), stderr);
      std::exit(2);
    }
    b.formula = std::move(*formula);
    auto sheet = flow::compile(b.formula, b.larder, b.kit);
    if (!sheet) {
      std::fputs((sheet.error().message + "\n" + base::render(sheet.error().diagnostics, b.sources)).c_str(), stderr);
      std::exit(2);
    }
    b.sheet = std::move(*sheet);
    return b;
  }();
  return one;
}

void run_to_the_serve(benchmark::State& state) {
  const flow::Flowsheet& sheet = bench().sheet;
  flow::Batch<1> batch(sheet);
  for (auto _ : state) {
    flow::run<1>(sheet, sheet.nominal, batch, flow::Until::service);
    benchmark::DoNotOptimize(batch.ports.data());
  }
}
BENCHMARK(run_to_the_serve);

void run_eight_lanes(benchmark::State& state) {
  const flow::Flowsheet& sheet = bench().sheet;
  flow::Batch<8> batch(sheet);
  std::vector<double> knobs(sheet.nominal.size() * 8);
  for (std::size_t k = 0; k < sheet.nominal.size(); ++k)
    for (std::size_t lane = 0; lane < 8; ++lane) knobs[k * 8 + lane] = sheet.nominal[k];
  for (auto _ : state) {
    flow::run<8>(sheet, knobs, batch, flow::Until::service);
    benchmark::DoNotOptimize(batch.ports.data());
  }
}
BENCHMARK(run_eight_lanes);

void run_to_twenty_minutes(benchmark::State& state) {
  const flow::Flowsheet& sheet = bench().sheet;
  flow::Batch<1> batch(sheet);
  for (auto _ : state) {
    flow::run<1>(sheet, sheet.nominal, batch);
    benchmark::DoNotOptimize(batch.ports.data());
  }
}
BENCHMARK(run_to_twenty_minutes);

void read_all_keys(benchmark::State& state) {
  const flow::Flowsheet& sheet = bench().sheet;
  flow::Batch<1> batch(sheet);
  flow::run<1>(sheet, sheet.nominal, batch);
  const matter::State at_service = flow::state_at(batch, sheet.served_liquid, sheet.served_ice);
  for (auto _ : state) {
    matter::Values values = matter::read_all(at_service);
    benchmark::DoNotOptimize(values);
  }
}
BENCHMARK(read_all_keys);

void compile_only(benchmark::State& state) {
  for (auto _ : state) {
    auto sheet = flow::compile(bench().formula, bench().larder, bench().kit);
    benchmark::DoNotOptimize(sheet);
  }
}
BENCHMARK(compile_only);

void text_to_printed_sheet(benchmark::State& state) {
  for (auto _ : state) {
    base::Sources sources;
    auto formula = formula::read("large.toml", bench().text, sources, {});
    auto sheet = sheet::make_sheet({*formula, bench().larder, bench().kit, std::nullopt, bench().text});
    std::string printed = press::sheet_text(*sheet, *formula);
    benchmark::DoNotOptimize(printed);
  }
}
BENCHMARK(text_to_printed_sheet);

// Six free amounts, five targets, on the same formula.
void balance_six_by_five(benchmark::State& state) {
  solve::BalanceAsked asked{{bench().formula, bench().larder, bench().kit, std::nullopt, bench().text}, bench().text, {}, {}, true};
  text::Faults faults;
  for (const char* target : {"serve.abv = 9 %", "serve.sugar = 6 %", "serve.acidity 0.5-0.7 %", "serve.volume 180-260 mL", "serve.ph >= 2.5"})
    asked.targets.push_back(*formula::read_target_text({target, {0, 1, 1, 1}}, text::Measures::metric, faults));
  for (const char* thing : {"orange juice", "citric acid", "sucrose", "spirit (40 %vol)", "lime juice", "water"})
    asked.vary.push_back({*formula::read_thing(thing, {0, 1, 1, 1}, faults), thing, {0, 1, 1, 1}, {}});
  for (auto _ : state) {
    auto found = solve::balance(asked);
    benchmark::DoNotOptimize(found);
  }
}
BENCHMARK(balance_six_by_five);

}  // namespace

BENCHMARK_MAIN();
