#include "press/finding_text.hpp"

#include <algorithm>

#include "press/figure.hpp"

namespace bloomset::press {
std::string sentence(std::string_view words) {
  std::string out = clean(words);
  if (out.empty()) return out;
  if (out[0] >= 'a' && out[0] <= 'z') out[0] = static_cast<char>(out[0] - 'a' + 'A');
  if (!out.ends_with('.') && !out.ends_with('?') && !out.ends_with('!')) out += '.';
  return out + " ";
}

void print_finding(Page& page, std::size_t indent, const base::Finding& finding) {
  const std::string lead = std::string(indent, ' ') + left(base::name(finding.weight), 4) + "  ";
  // What was taken for granted is said in one breath: why, and what to do, would be the same each time.
  if (finding.code == base::Code::assumption && finding.weight == base::Weight::note) {
    page.paragraph(lead, "Taken for granted: " + clean(finding.says) + ".");
    return;
  }
  std::string words = sentence(finding.says) + sentence(finding.why);
  bool first = true;
  for (const base::Remedy& remedy : finding.remedies) {
    if (remedy.says.empty()) continue;
    words.append(first ? "What to do: " : "Or: ").append(sentence(remedy.says));
    first = false;
  }
  if (finding.from_serves) words.append("From ").append(figure(*finding.from_serves, Digits::whole)).append(" serves on. ");
  if (!finding.source.empty()) words.append("[").append(clean(finding.source)).append("]");
  page.paragraph(lead, words);
}

std::size_t FindingDesk::say(Page& page, std::size_t indent, const std::function<bool(const base::Finding&)>& here) {
  std::size_t count = 0;
  for (const base::Weight weight : {base::Weight::stop, base::Weight::mind, base::Weight::note}) {
    for (std::size_t i = 0; i < findings_.size(); ++i) {
      if (said_[i] || findings_[i].weight != weight || !here(findings_[i])) continue;
      said_[i] = true;
      ++count;
      print_finding(page, indent, findings_[i]);
    }
  }
  return count;
}

void FindingDesk::told(const std::function<bool(const base::Finding&)>& here) {
  for (std::size_t i = 0; i < findings_.size(); ++i) said_[i] = said_[i] || here(findings_[i]);
}

std::size_t FindingDesk::waiting() const { return static_cast<std::size_t>(std::count(said_.begin(), said_.end(), false)); }

}  // namespace bloomset::press
