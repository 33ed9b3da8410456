#include "http/house.hpp"

#include <algorithm>
#include <chrono>

#include "http/embedded.hpp"

namespace bloomset::http {
namespace {

using Entries = std::vector<store::Entry>;

bool same(const Entries& a, const Entries& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const store::Entry& x, const store::Entry& y) { return x.key == y.key && x.number == y.number; });
}

base::Result<Entries> stock_documents(const store::Shelf& shelf) {
  Entries all;
  for (const char* kind : {"larder", "kit"}) {
    auto some = shelf.list(kind);
    if (!some) return tl::unexpected(std::move(some.error()));
    all.insert(all.end(), some->begin(), some->end());
  }
  return all;
}

base::Result<std::shared_ptr<const Stock>> put_together(const store::Shelf& shelf, Entries documents) {
  auto larder = larder::Larder::built_in();
  if (!larder) return tl::unexpected(std::move(larder.error()));
  auto kit = kit::Kit::built_in();
  if (!kit) return tl::unexpected(std::move(kit.error()));
  auto stock = std::make_shared<Stock>(Stock{std::move(*larder), std::move(*kit), {}, {}, std::move(documents)});
  for (const store::Entry& entry : stock->documents) {
    auto text = shelf.read(entry.key);
    if (!text) return tl::unexpected(std::move(text.error()));
    const std::string& name = entry.key.name;  // as it is called in what comes from it
    auto added =
        entry.key.kind == "kit" ? stock->kit.add(name, std::move(text->text), stock->sources) : stock->larder.add(name, std::move(text->text), stock->sources);
    if (added) continue;
    std::vector<base::Diagnostic>& faults = added.error().diagnostics;
    stock->left_out.push_back({base::Severity::warning,
                               "left_out",
                               "the " + entry.key.kind + " `" + name + "` is not in force: " + added.error().message,
                               {},
                               std::nullopt,
                               "mend this document"});
    stock->left_out.insert(stock->left_out.end(), std::make_move_iterator(faults.begin()), std::make_move_iterator(faults.end()));
  }
  return stock;
}

// The name that a document of the demo gets: its title; what others borrow keeps the name that they borrow it by.
std::string demo_name(const EmbeddedFile& file) {
  const std::string stem = std::filesystem::path(file.path).stem().string();
  for (const EmbeddedFile& other : demo_files())
    if (other.text.find("\"" + stem + ".toml\"") != std::string_view::npos) return stem;
  base::Sources sources;
  const auto read = formula::read(std::string(file.path), std::string(file.text), sources, [](const std::string& name) -> std::optional<std::string> {
    for (const EmbeddedFile& other : demo_files())
      if (other.path == name) return std::string(other.text);
    return std::nullopt;
  });
  return read ? read->title : stem;
}

base::Result<void> put_demo_on(store::Shelf& shelf) {
  for (const EmbeddedFile& file : demo_files())
    if (auto saved = shelf.save({"formula", demo_name(file)}, std::string(file.text), 0, now_ms()); !saved) return tl::unexpected(std::move(saved.error()));
  return {};
}

}  // namespace

std::int64_t now_ms() { return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::system_clock::now().time_since_epoch()).count(); }

base::Result<std::unique_ptr<House>> House::open(const std::filesystem::path& path) {
  std::error_code trouble;
  const bool fresh = !std::filesystem::exists(path, trouble);
  auto shelf = store::Shelf::open(path);
  if (!shelf) return tl::unexpected(std::move(shelf.error()));
  if (fresh)
    if (auto put = put_demo_on(*shelf); !put) return tl::unexpected(std::move(put.error()));
  return std::unique_ptr<House>(new House(std::move(*shelf), path.string(), fresh));
}

base::Result<std::shared_ptr<const Stock>> House::stock() {
  const std::lock_guard lock(guard_);
  auto documents = stock_documents(shelf_);
  if (!documents) return tl::unexpected(std::move(documents.error()));
  if (!stock_ || !same(stock_->documents, *documents)) {
    auto made = put_together(shelf_, std::move(*documents));
    if (!made) return made;
    stock_ = std::move(*made);
  }
  return stock_;
}

formula::Borrower House::borrower() {
  return [this](const std::string& file) -> std::optional<std::string> {
    constexpr std::string_view ending = ".toml";
    const std::string name = file.ends_with(ending) ? file.substr(0, file.size() - ending.size()) : file;
    const std::lock_guard lock(guard_);
    auto found = shelf_.read({"formula", name});
    if (!found || found->gone) return std::nullopt;
    return std::move(found->text);
  };
}

}  // namespace bloomset::http
