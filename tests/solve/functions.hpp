// A plain function of uniform numbers as an experiment: what the estimators are held against.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "solve/experiment.hpp"

namespace bloomset::solve_test {

using Function = std::function<double(const std::vector<double>&)>;

class OfFunctions final : public solve::Experiment {
 public:
  /// `group_of` has one group a number.
  OfFunctions(std::vector<Function> functions, std::vector<std::size_t> group_of) : functions_(std::move(functions)), group_of_(std::move(group_of)) {
    numbers = group_of_.size();
    answers = brief = functions_.size();
    for (const std::size_t g : group_of_) groups = std::max(groups, g + 1);
  }
  std::unique_ptr<solve::Worker> worker() const override { return std::make_unique<Hand>(*this); }

 private:
  class Hand final : public solve::Worker {
   public:
    explicit Hand(const OfFunctions& of) : of_(of), own_(of.numbers * solve::lanes), x_(of.numbers) {}
    void answer(std::uint64_t, std::span<const double> u, bool, std::span<double> out) noexcept override {
      std::copy(u.begin(), u.end(), own_.begin());
      evaluate([&](std::size_t, std::size_t at) { return own_[at]; }, out);
    }
    void swap(std::size_t group, std::span<const double> other, std::span<double> out) noexcept override {
      evaluate([&](std::size_t d, std::size_t at) { return of_.group_of_[d] == group ? other[at] : own_[at]; }, out);
    }

   private:
    template <class At>
    void evaluate(At&& at, std::span<double> out) {
      for (std::size_t lane = 0; lane < solve::lanes; ++lane) {
        for (std::size_t d = 0; d < of_.numbers; ++d) x_[d] = at(d, d * solve::lanes + lane);
        for (std::size_t f = 0; f < of_.functions_.size(); ++f) out[f * solve::lanes + lane] = of_.functions_[f](x_);
      }
    }
    const OfFunctions& of_;
    std::vector<double> own_, x_;
  };
  std::vector<Function> functions_;
  std::vector<std::size_t> group_of_;
};

}  // namespace bloomset::solve_test
