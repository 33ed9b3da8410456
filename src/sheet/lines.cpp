#include "sheet/lines.hpp"

#include <algorithm>

#include "flow/compile.hpp"
#include "formula/patch.hpp"
#include "sheet/names.hpp"
#include "text/document.hpp"
#include "text/fold.hpp"
#include "text/number.hpp"
#include "text/table.hpp"
#include "text/units.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

namespace {

constexpr std::size_t nearest_shown = 3;

struct UnitWord {
  std::string written, unit;
};
// The longer ones first, so that `fl oz` is not read as anything shorter.
const std::vector<UnitWord>& unit_words() {
  static const std::vector<UnitWord> words = [] {
    std::vector<UnitWord> all;
    for (const auto& row : text::table_rows(embedded("sheet/line_words.csv"))) all.push_back({text::fold(row[0]), row[1]});
    std::stable_sort(all.begin(), all.end(), [](const UnitWord& a, const UnitWord& b) { return a.written.size() > b.written.size(); });
    return all;
  }();
  return words;
}

void trim(std::string& text) {
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r')) text.pop_back();
  text.erase(0, std::min(text.find_first_not_of(" \t"), text.size()));
}

bool drop(std::string& text, std::string_view opening) {
  if (text::fold(text.substr(0, opening.size())) != text::fold(opening)) return false;
  text.erase(0, opening.size());
  trim(text);
  return true;
}

// Marks of a list, tabs and doubled blanks.
std::string plain(std::string line) {
  for (char& c : line)
    if (c == '\t') c = ' ';
  trim(line);
  for (const std::string_view mark : {"- ", "* ", "\u2022", "\u2013 "})
    if (line.starts_with(mark)) {
      line.erase(0, mark.size());
      trim(line);
    }
  return line;
}

// The unit at the beginning of `rest`, which loses it; nothing: there is none.
std::optional<std::string> take_unit(std::string& rest) {
  for (const UnitWord& word : unit_words()) {
    if (rest.size() < word.written.size() || text::fold(rest.substr(0, word.written.size())) != word.written) continue;
    std::size_t at = word.written.size();
    if (at < rest.size() && rest[at] == '.') ++at;
    if (at < rest.size() && rest[at] != ' ') continue;
    rest.erase(0, at);
    trim(rest);
    drop(rest, "of ");
    return word.unit;
  }
  return std::nullopt;
}

bool is_known(const larder::Larder& larder, const std::string& name) { return larder.resolve(name, {}, {}).has_value(); }

// As the larder calls it: without the plural's s, or without what stands behind the last comma.
std::string known_form(const larder::Larder& larder, const std::string& thing) {
  if (thing.empty() || thing.find('(') != std::string::npos || is_known(larder, thing)) return thing;
  std::string bare = thing.substr(0, thing.rfind(','));
  trim(bare);
  for (const std::string& stem : {thing, bare}) {
    if (is_known(larder, stem)) return stem;
    for (const std::string_view ending : {"s", "es"})
      if (stem.ends_with(ending) && is_known(larder, stem.substr(0, stem.size() - ending.size()))) return stem.substr(0, stem.size() - ending.size());
    if (stem.ends_with("ves") && is_known(larder, stem.substr(0, stem.size() - 3) + "f")) return stem.substr(0, stem.size() - 3) + "f";
  }
  return thing;
}

text::Measures measures_in(const std::string& document) {
  base::Sources sources;
  const auto tree = text::read_toml(sources.add("", document), sources);
  if (tree)
    if (const text::Node* measures = tree->find("measures"))
      for (const auto system : {text::Measures::us, text::Measures::imperial, text::Measures::au})
        if (measures->string == text::name(system)) return system;
  return text::Measures::metric;
}

class LineReader {
 public:
  LineReader(const larder::Larder& larder, text::Measures measures) : larder_(larder), measures_(measures) {
    for (const larder::Listing& row : larder.listing()) {
      names_.push_back(row.name);
      names_.insert(names_.end(), row.also.begin(), row.also.end());
    }
  }

  LineRead read(const std::string& written, std::uint32_t number) {
    LineRead out;
    out.written = written;
    base::Span place{0, number, 1, static_cast<std::uint32_t>(std::max<std::size_t>(written.size(), 1))};
    const auto refuse = [&](std::string code, std::string message, std::string hint) {
      out.fault = base::Diagnostic{base::Severity::error, std::move(code), std::move(message), place, std::nullopt, std::move(hint)};
      return out;
    };
    std::string rest = plain(written);
    if (drop(rest, "a ") || drop(rest, "an ") || drop(rest, "one ")) rest.insert(0, "1 ");
    for (const std::string_view of : {"juice of ", "zest of ", "peel of "})
      if (text::fold(rest).starts_with(of))
        return refuse("no_amount", "the " + std::string(of) + "a fruit is no amount: fruits differ", "weigh it once, and write for instance `25 g lime juice`");
    text::Cursor cursor{rest, {}};
    text::Faults faults;
    const auto amount = text::read_numbers(cursor, text::Sign::plain_only, faults);
    if (!amount)
      return refuse("amount_missing", faults.empty() || rest.empty() || !starts_a_number(rest) ? "this line begins with no amount" : faults.front().message,
                    "write for instance `200 g lime juice`");
    std::string count = rest.substr(0, cursor.at);
    trim(count);
    rest.erase(0, cursor.at);
    trim(rest);
    for (const std::string_view vague : {"pinch", "handful", "splash", "glug", "knob", "bunch"})
      if (text::fold(rest).starts_with(vague))
        return refuse("no_amount", "a " + std::string(vague) + " is no amount: every hand has its own", "weigh it once, and write for instance `0.4 g salt`");
    const auto unit = take_unit(rest);
    const std::string thing = known_form(larder_, rest);
    const std::string take = count + " " + unit.value_or("piece") + " " + thing;
    auto read = formula::read_take(take, {}, measures_, faults);
    if (!read) {
      out.fault = faults.front();
      out.fault->span = place;
      return out;
    }
    return settled(std::move(out), *read, place);
  }

 private:
  static bool starts_a_number(const std::string& line) { return (line.front() >= '0' && line.front() <= '9') || line.front() == '.'; }

  LineRead settled(LineRead out, const formula::Take& take, base::Span place) const {
    if (take.kind == formula::ThingKind::bought) {
      const auto thing = larder_.resolve(take.thing, flow::bracket_of(take), {});
      out.known = thing.has_value();
      if (!thing && thing.error().kind != base::ErrorKind::not_found) {
        out.fault = thing.error().diagnostics.front();
        out.fault->span = place;
        return out;
      }
      if (!thing)
        for (const std::size_t i : best_names(take.thing, names_, nearest_shown)) out.nearest.push_back(names_[i]);
    }
    out.take = formula::print(take, measures_);
    out.amount = text::print(take.amount, measures_);
    out.thing = formula::label(take);
    return out;
  }

  const larder::Larder& larder_;
  text::Measures measures_;
  std::vector<std::string> names_;
};

}  // namespace

base::Result<LinesRead> read_lines(const std::string& lines, const std::string& document, const larder::Larder& larder) {
  LinesRead out;
  out.text = document;
  LineReader reader(larder, measures_in(document));
  std::uint32_t number = 0;
  for (std::size_t at = 0; at < lines.size(); ++number) {
    const std::size_t end = std::min(lines.find('\n', at), lines.size());
    std::string line = lines.substr(at, end - at);
    at = end + 1;
    trim(line);
    if (line.empty()) continue;
    if (out.lines.size() == most_lines) return base::fail(base::ErrorKind::bad_input, "more than " + std::to_string(most_lines) + " lines", {});
    out.lines.push_back(reader.read(line, number + 1));
    if (out.lines.back().take.empty()) continue;
    formula::Change change;
    change.what = formula::Do::add_line;
    change.value = out.lines.back().take;
    auto next = formula::changed(out.text, change, [](const std::string&) { return std::nullopt; });
    if (!next) return tl::unexpected<base::Error>(std::move(next.error()));
    out.text = std::move(*next);
  }
  return out;
}

}  // namespace bloomset::sheet
