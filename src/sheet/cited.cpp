#include "sheet/cited.hpp"

#include <optional>

#include "sheet/readings.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

namespace {

using base::Code;
using base::Weight;

// `field = {text}` inside an entry: the text up to the brace that closes it.
std::optional<std::string_view> field(std::string_view entry, std::string_view name) {
  const std::size_t at = entry.find(name);
  if (at == std::string_view::npos) return std::nullopt;
  const std::size_t open = entry.find('{', at);
  if (open == std::string_view::npos) return std::nullopt;
  int depth = 0;
  for (std::size_t i = open; i < entry.size(); ++i) {
    if (entry[i] == '{') ++depth;
    if (entry[i] == '}' && --depth == 0) return entry.substr(open + 1, i - open - 1);
  }
  return std::nullopt;
}

// The entry of a key: from its name to the next entry.
std::optional<std::string_view> entry_of(std::string_view key) {
  const std::string_view all = embedded("sources.bib");
  const std::string head = "{" + std::string(key) + ",";
  const std::size_t at = all.find(head);
  if (at == std::string_view::npos) return std::nullopt;
  return all.substr(at + head.size(), all.find("\n@", at) - at - head.size());
}

std::string title_of(std::string_view key) {
  const auto entry = entry_of(key);
  const auto title = entry ? field(*entry, "\n  title") : std::nullopt;
  if (!title) return std::string(key);
  std::string out;
  for (const char c : *title)
    if (c != '\\' && c != '{' && c != '}') out += c;
  if (const auto year = field(*entry, "\n  year")) out.append(", ").append(*year);
  return out;
}

// In words; where the text can be changed, set_remedies.cpp does so. Empty: the words of the code say it.
std::string what_mends(const texture::Cause& cause) {
  if (cause.code != Code::will_not_set && cause.code != Code::sets_soft) return {};
  const std::string agent(texture::info(cause.agent).name), limit = shown(cause.limit);
  switch (cause.fault) {
    case texture::Fault::too_little:
      return "raise the dose of " + agent + " to " + limit + " % or more";
    case texture::Fault::not_dissolved:
      return "heat it to " + limit + " C or above with the " + agent + " in it";
    case texture::Fault::not_swollen:
      return "chill it to " + limit + " C or below, overnight, before it is warmed";
    case texture::Fault::overheated:
      return "heat it no further than " + limit + " C once the " + agent + " is in";
    case texture::Fault::bloom_lost:
      return "dissolve it at 50 to 60 C and keep it hot no longer than that takes, or take more of it";
    case texture::Fault::too_acid:
      return "stir the acid in last, or bring it to pH " + limit + " or above";
    case texture::Fault::too_little_acid:
      return "add acid until it has pH " + limit + " or below";
    case texture::Fault::too_strong:
      return "bring it to " + limit + " %vol or below";
    case texture::Fault::matter:
      return (cause.value < cause.limit ? "bring it up to " : "bring it down to ") + limit + ", or take an agent that bears it";
    case texture::Fault::rests_warm:
      return "let it set at " + limit + " C or colder";
    case texture::Fault::rests_cold:
      return "serve it above " + limit + " C, or take an agent that stands when cold";
    case texture::Fault::rests_short:
      return "give it " + limit + " h";
    case texture::Fault::other:
      return "take an agent that does: the command `dose` says how much";
  }
  return {};
}

}  // namespace

std::string source_words(std::string_view source) {
  if (source == "practice") return "common practice, no source";
  if (source.starts_with("memory: ")) return std::string(source);
  std::string out;
  while (!source.empty()) {
    const std::size_t end = std::min(source.find(' '), source.size());
    if (end > 0) out.append(out.empty() ? "" : "; ").append(title_of(source.substr(0, end)));
    source.remove_prefix(std::min(end + 1, source.size()));
  }
  return out;
}

base::Finding finding(const texture::Cause& cause, base::Where at) {
  base::Finding out = say(cause.code, std::move(at), cause.says, cause.value, cause.limit);
  out.source = source_words(cause.cited.source);
  if (std::string words = what_mends(cause); !words.empty()) out.remedies.push_back({std::move(words), std::nullopt});
  const bool keeps_weight = cause.code == Code::dose_below_scale || cause.code == Code::over_legal_limit || cause.code == Code::choking;
  switch (cause.bearing) {
    case texture::Bearing::stops:
      out.weight = Weight::stop;
      break;
    case texture::Bearing::weakens:
      out.weight = Weight::mind;
      break;
    case texture::Bearing::tells:
      if (!keeps_weight) out.weight = Weight::note;
      break;
  }
  return out;
}

}  // namespace bloomset::sheet
