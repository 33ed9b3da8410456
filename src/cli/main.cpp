// cli/main.cpp - the program: reads the command line, runs one command, and catches what must never escape.
//
// Exit codes: 0 done; 1 a sheet or check with a `stop` finding or a missed target; 2 bad input; 3 a fault of our own.
#include <exception>
#include <iostream>
#include <variant>

#include "cli/commands.hpp"

namespace {

using namespace bloomset::cli;

struct Run {
  const Common& common;
  Streams streams;
  int operator()(std::monostate) const { return 2; }
  int operator()(const SheetOptions& options) const { return run_sheet(options, common, streams); }
  int operator()(const CheckOptions& options) const { return run_check(options, common, streams); }
  int operator()(const MixOptions& options) const { return run_mix(options, common, streams); }
  int operator()(const ChillOptions& options) const { return run_chill(options, common, streams); }
  int operator()(const DoseOptions& options) const { return run_dose(options, common, streams); }
  int operator()(const GelatinOptions& options) const { return run_gelatin(options, common, streams); }
  int operator()(const ChargeOptions& options) const { return run_charge(options, common, streams); }
  int operator()(const SubstituteOptions& options) const { return run_substitute(options, common, streams); }
  int operator()(const BalanceOptions& options) const { return run_balance(options, common, streams); }
  int operator()(const BatchOptions& options) const { return run_batch(options, common, streams); }
  int operator()(const RatioOptions& options) const { return run_ratio(options, common, streams); }
  int operator()(const RefitOptions& options) const { return run_refit(options, common, streams); }
  int operator()(const ShelfOptions& options) const { return run_shelf(options, common, streams); }
  int operator()(const OpenOptions& options) const { return run_open(options, common, streams); }
  int operator()(const ScatterOptions& options) const { return run_scatter(options, common, streams); }
};

int run(int count, char** words) {
  const Reading reading = read_command_line(count, words);
  std::cout << reading.out;
  std::cerr << reading.err;
  const int code = reading.request ? std::visit(Run{reading.request->common, {std::cout, std::cerr}}, reading.request->command) : reading.exit_code;
  if (!std::cout.flush()) {
    std::cerr << "bloomset: the output could not be written\n";
    return 2;
  }
  return code;
}

}  // namespace

int main(int count, char** words) {
  std::ios::sync_with_stdio(false);
  try {
    return run(count, words);
  } catch (const std::exception& fault) {
    std::cerr << "bloomset: internal fault: " << fault.what() << "\n";
  } catch (...) {
    std::cerr << "bloomset: internal fault\n";
  }
  return 3;
}
