// store/exchange.cpp - a shelf as a folder of files, KIND/NAME.toml, and back.
//
// A name becomes a file's name byte by byte: letters, digits, blanks, `-`, `_` and all that is not ASCII stay; any other byte is written `%XX`. The way
// back is exact, so that what was exported imports as it was. A file's text is taken as it is, to the byte.
#include <algorithm>
#include <fstream>
#include <sstream>
#include <system_error>

#include "store/database.hpp"
#include "store/shelf.hpp"

namespace bloomset::store {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t longest_file_name = 250;  // of the 255 bytes that usual file systems allow

std::string file_name_of(const std::string& name) {
  constexpr char hex[] = "0123456789ABCDEF";
  std::string out;
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain =
        byte >= 0x80 || (byte >= '0' && byte <= '9') || ((byte | 0x20) >= 'a' && (byte | 0x20) <= 'z') || byte == ' ' || byte == '-' || byte == '_';
    if (plain)
      out += c;
    else
      out.append({'%', hex[byte >> 4U], hex[byte & 0xFU]});
  }
  return out;
}

std::optional<std::string> name_of(const std::string& stem) {
  const auto digit = [](char c) { return c >= '0' && c <= '9' ? c - '0' : c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1; };
  std::string out;
  for (std::size_t i = 0; i < stem.size(); ++i) {
    if (stem[i] != '%') {
      out += stem[i];
      continue;
    }
    if (i + 2 >= stem.size() || digit(stem[i + 1]) < 0 || digit(stem[i + 2]) < 0) return std::nullopt;
    out += static_cast<char>(16 * digit(stem[i + 1]) + digit(stem[i + 2]));
    i += 2;
  }
  return out;
}

tl::unexpected<base::Error> io(const fs::path& path, const std::string& words, const std::error_code& trouble = {}) {
  return base::fail(base::ErrorKind::io, path.string() + ": " + words + (trouble ? " (" + trouble.message() + ")" : std::string()));
}

base::Result<void> write(const fs::path& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  if (!(out << text).flush()) return io(path, "this file cannot be written: nothing was exported");
  return {};
}

base::Result<std::string> read_all(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream whole;
  if (in.peek() != std::ifstream::traits_type::eof()) whole << in.rdbuf();
  if (!in.is_open() || in.bad()) return io(path, "this file cannot be read: nothing was imported");
  return whole.str();
}

struct File {
  Key key;
  fs::path path;
};

// Every KIND/NAME.toml, in the order of their names.
base::Result<std::vector<File>> files_in(const fs::path& folder) {
  std::error_code trouble;
  if (!fs::is_directory(folder, trouble)) return base::fail(base::ErrorKind::not_found, folder.string() + ": there is no such folder");
  std::vector<File> files;
  fs::recursive_directory_iterator at(folder, trouble);
  for (; !trouble && at != fs::recursive_directory_iterator(); at.increment(trouble)) {
    if (at.depth() != 1 || at->path().extension() != ".toml" || at->is_symlink() || !at->is_regular_file()) continue;
    const auto name = name_of(at->path().stem().string());
    if (!name) return io(at->path(), "this file's name is not one that an export gives: `%` is followed by two digits of 0-9 and A-F");
    files.push_back({{at->path().parent_path().filename().string(), *name}, at->path()});
  }
  if (trouble) return io(folder, "this folder cannot be read", trouble);
  if (files.empty())
    return base::fail(base::ErrorKind::not_found, folder.string() + ": there is no KIND/NAME.toml in this folder, as in formula/Harbour Light.toml");
  std::sort(files.begin(), files.end(), [](const File& a, const File& b) { return a.path < b.path; });
  return files;
}

}  // namespace

base::Result<std::size_t> Shelf::export_to(const fs::path& folder) const {
  std::error_code trouble;
  if (fs::exists(folder, trouble)) return io(folder, "this is there already: name a folder that is not");
  const auto all = list();
  if (!all) return tl::unexpected(all.error());
  const fs::path half = folder.string() + ".part";
  fs::remove_all(half, trouble);
  const auto fill = [&]() -> base::Result<void> {
    fs::create_directories(half, trouble);
    if (trouble) return io(half, "this folder cannot be made", trouble);
    for (const Entry& entry : *all) {
      const std::string file = file_name_of(entry.key.name) + ".toml";
      if (file.size() > longest_file_name) return io(folder, "the name `" + entry.key.name + "` is too long for a file: give the document a shorter one");
      const auto last = read(entry.key);
      if (!last) return tl::unexpected(last.error());
      fs::create_directories(half / entry.key.kind, trouble);
      if (trouble) return io(half, "this folder cannot be made", trouble);
      if (auto done = write(half / entry.key.kind / file, last->text); !done) return done;
    }
    fs::rename(half, folder, trouble);
    if (trouble) return io(folder, "the folder could not be put in its place", trouble);
    return {};
  };
  if (auto done = fill(); !done) {
    fs::remove_all(half, trouble);
    return tl::unexpected(done.error());
  }
  return all->size();
}

base::Result<Imported> Shelf::import_from(const fs::path& folder, std::int64_t now_ms) {
  const auto files = files_in(folder);
  if (!files) return tl::unexpected(files.error());
  auto change = Transaction::begin(*database_);
  if (!change) return tl::unexpected(change.error());
  Imported done;
  for (const File& file : *files) {
    const auto text = read_all(file.path);
    if (!text) return tl::unexpected(text.error());
    const auto there = read(file.key);
    if (!there && there.error().kind != base::ErrorKind::not_found) return tl::unexpected(there.error());
    if (there && !there->gone && there->text == *text) {
      ++done.same;
      continue;
    }
    const auto saved = add_inside(file.key, *text, false, there ? there->number : 0, now_ms);
    if (!saved) return tl::unexpected(saved.error());
    ++(there ? done.changed : done.added);
  }
  if (auto made = change->commit(); !made) return tl::unexpected(made.error());
  return done;
}

}  // namespace bloomset::store
