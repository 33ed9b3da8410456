// press/press.hpp - printing: everything the program says, as text for people or JSON for machines. Pure: strings out.
//
// Text: at most 80 columns, plain UTF-8, no colours. JSON: the same
// facts unrounded, in the contract's keys and order, `null` where a number cannot be given. `check` has its own printer (press/check.hpp). Callers: cli.
#pragma once

#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "formula/formula.hpp"
#include "sheet/batching.hpp"
#include "sheet/charging.hpp"
#include "sheet/dosing.hpp"
#include "sheet/gelatin_swap.hpp"
#include "sheet/mixture.hpp"
#include "sheet/replacing.hpp"
#include "sheet/sheet.hpp"
#include "solve/balance.hpp"
#include "solve/proportion.hpp"
#include "solve/scatter.hpp"

namespace bloomset::press {

/// How far the serve swings, where it was asked for; see solve/whiskers.hpp.
using Whiskers = std::vector<solve::PropertySpread>;

/// The sheet for the kitchen. `formula` is the document it was made from.
std::string sheet_text(const sheet::Sheet&, const formula::Formula& formula, const Whiskers& = {});
/// The whole sheet; `sources` give findings the names of their files.
std::string sheet_json(const sheet::Sheet&, const base::Sources& sources, const Whiskers& = {});

std::string batch_text(const sheet::BatchSheet&);
std::string batch_json(const sheet::BatchSheet&, const base::Sources& sources);

std::string mixture_text(const sheet::MixtureSheet&);
std::string mixture_json(const sheet::MixtureSheet&);
std::string chill_text(const sheet::ChillSheet&);
std::string chill_json(const sheet::ChillSheet&);

// The commands of the bench for agents and bottles.
std::string dose_text(const sheet::DoseSheet&);
std::string dose_json(const sheet::DoseSheet&);
std::string gelatin_text(const sheet::GelatinSheet&);
std::string gelatin_json(const sheet::GelatinSheet&);
std::string charge_text(const sheet::ChargeSheet&);
std::string charge_json(const sheet::ChargeSheet&);
std::string substitute_text(const sheet::ReplaceSheet&);
/// The first part's answer; the command says which other parts there are.
std::string substitute_json(const sheet::ReplaceSheet&, const base::Sources& sources);

// The model asked backwards.
std::string scatter_text(const solve::ScatterSheet&);
std::string scatter_json(const solve::ScatterSheet&, const base::Sources& sources);
std::string ratio_text(const solve::ProportionSheet&);
std::string ratio_json(const solve::ProportionSheet&, const base::Sources& sources);
std::string balance_text(const solve::BalanceSheet&, const std::string& title);
std::string balance_json(const solve::BalanceSheet&, const base::Sources& sources);

}  // namespace bloomset::press
