// A shelf in use: revisions, conflicts, finding, and what it says of files and folders it cannot use.
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <atomic>
#include <csignal>
#include <thread>

#include "place.hpp"

namespace bloomset::store {
namespace {

using test::number_of;
using test::open;
using test::Place;

const Key sour = {"formula", "Low Tide Sour"};

TEST(Shelf, KeepsEveryTextThatWasSaved) {
  const Place place;
  Shelf shelf = open(place / "deep/er/a.shelf");  // the folder is made
  EXPECT_EQ(number_of(shelf.save(sour, "one", 0, 1000)), 1);
  EXPECT_EQ(number_of(shelf.save(sour, "two", 1, 2000)), 2);
  EXPECT_EQ(number_of(shelf.save(sour, "one", 2, 3000)), 3);  // a restore is a save of an old text
  EXPECT_EQ(number_of(shelf.save(sour, "one", 3, 4000)), 3);  // nothing changed, nothing new
  const auto history = shelf.history(sour);
  ASSERT_TRUE(history);
  ASSERT_EQ(history->size(), 3U);
  EXPECT_EQ((*history)[0].text, "one");
  EXPECT_EQ((*history)[1].text, "two");
  EXPECT_EQ((*history)[1].saved_ms, 2000);
  EXPECT_EQ(shelf.read(sour, 2)->text, "two");
  EXPECT_EQ(shelf.read(sour)->number, 3);
  EXPECT_EQ(shelf.read(sour, 4).error().message, "formula `Low Tide Sour` has no revision 4: they run from 1 to 3");
  EXPECT_TRUE(shelf.check()->empty());
}

TEST(Shelf, TextsComeBackToTheByte) {
  const Place place;
  const std::string odd = std::string("a\0b", 3) + "\r\n\tcrème \xF0\x9F\x8D\x8B \xFF end";
  open(place / "a.shelf").save(sour, odd, 0, 1);
  EXPECT_EQ(open(place / "a.shelf").read(sour)->text, odd);
}

TEST(Shelf, TheSecondWriterGetsBothTexts) {
  const Place place;
  Shelf one = open(place / "a.shelf"), other = open(place / "a.shelf");
  one.save(sour, "begun", 0, 1);
  EXPECT_EQ(number_of(one.save(sour, "mine", 1, 2)), 2);
  const auto second = other.save(sour, "yours", 1, 3);
  ASSERT_TRUE(second);
  ASSERT_TRUE(std::holds_alternative<Conflict>(*second));
  const auto& conflict = std::get<Conflict>(*second);
  EXPECT_EQ(conflict.theirs.text, "mine");
  EXPECT_EQ(conflict.theirs.number, 2);
  EXPECT_EQ(conflict.began_from->text, "begun");
  EXPECT_EQ(other.read(sour)->text, "mine");
  EXPECT_EQ(number_of(other.save(sour, "both", 2, 4)), 3);
  // Two who both make a new document of one name.
  const auto again = other.save(sour, "new", 0, 5);
  ASSERT_TRUE(std::holds_alternative<Conflict>(*again));
  EXPECT_FALSE(std::get<Conflict>(*again).began_from);
}

TEST(Shelf, ManyWritersAtOnceLoseNothing) {
  const Place place;
  open(place / "a.shelf");
  constexpr int writers = 4, saves = 25;
  std::atomic<int> won = 0;
  {
    std::vector<std::jthread> all;
    for (int w = 0; w < writers; ++w)
      all.emplace_back([&, w] {
        Shelf shelf = open(place / "a.shelf");
        std::int64_t from = 0;
        for (int i = 0; i < saves;) {
          const auto saved = shelf.save(sour, std::to_string(w) + ":" + std::to_string(i), from, 1);
          ASSERT_TRUE(saved) << saved.error().message;
          if (const auto* conflict = std::get_if<Conflict>(&*saved)) {
            from = conflict->theirs.number;
            continue;
          }
          from = std::get<Revision>(*saved).number;
          ++i;
          ++won;
        }
      });
  }
  EXPECT_EQ(won, writers * saves);
  const Shelf shelf = open(place / "a.shelf");
  EXPECT_EQ(shelf.history(sour)->size(), static_cast<std::size_t>(writers * saves));
  EXPECT_TRUE(shelf.check()->empty());
}

TEST(Shelf, ARemovedDocumentIsOutOfSightAndNotLost) {
  const Place place;
  Shelf shelf = open(place / "a.shelf");
  shelf.save(sour, "lime juice", 0, 1);
  EXPECT_EQ(number_of(shelf.remove(sour, 1, 2)), 2);
  EXPECT_TRUE(shelf.list()->empty());
  EXPECT_TRUE(shelf.search("lime")->empty());
  EXPECT_TRUE(shelf.read(sour)->gone);
  EXPECT_EQ(shelf.read(sour, 1)->text, "lime juice");
  EXPECT_EQ(number_of(shelf.save(sour, "lime juice", 0, 3)), 3);  // its name is free again
  EXPECT_EQ(shelf.search("lime")->size(), 1U);
  EXPECT_EQ(shelf.remove({"formula", "Nowhere"}, 0, 1).error().message, "there is no formula `Nowhere` on this shelf");
  EXPECT_TRUE(shelf.check()->empty());
}

TEST(Shelf, FindsByWordsAndBeginningsOfWordsWithoutAccentsOrCase) {
  const Place place;
  Shelf shelf = open(place / "a.shelf");
  shelf.save({"formula", "Quay Cloud"}, "take = [\"230 g orange juice\", \"1.1 % gelatin, gold leaf\"]", 0, 1);
  shelf.save({"formula", "Crème of Fennel"}, "take = [\"cream\"]", 0, 1);
  shelf.save({"larder", "gelatin of the house"}, "bloom = 210", 0, 1);
  const auto names = [&](const std::string& words) {
    std::vector<std::string> out;
    const auto found = shelf.search(words);
    for (const Entry& entry : *found) out.push_back(entry.key.name);
    return out;
  };
  using Names = std::vector<std::string>;
  EXPECT_EQ(names("creme"), Names{"Crème of Fennel"});
  EXPECT_EQ(names("GELAT"), (Names{"gelatin of the house", "Quay Cloud"}));  // in the name before in the text
  EXPECT_EQ(names("orange gold"), Names{"Quay Cloud"});
  EXPECT_EQ(names("orange cream"), Names{});
  for (const char* hostile : {"\"", "'; DROP TABLE document; --", "NEAR(", "* OR -", "name:quay", "(", "^"}) EXPECT_TRUE(shelf.search(hostile)) << hostile;
  EXPECT_TRUE(names("\" * -").empty());
  EXPECT_NE((*shelf.search("orange"))[0].excerpt.find("\u00aborange\u00bb"), std::string::npos);
  EXPECT_EQ(shelf.list("larder")->size(), 1U);
  EXPECT_EQ(shelf.list()->size(), 3U);
}

TEST(Shelf, RefusesKeysAndTextsOutOfBounds) {
  const Place place;
  Shelf shelf = open(place / "a.shelf");
  for (const Key& key :
       {Key{"", "a"}, Key{"Formula", "a"}, Key{"../x", "a"}, Key{"formula", ""}, Key{"formula", "a\nb"}, Key{"formula", std::string(201, 'a')}}) {
    const auto saved = shelf.save(key, "text", 0, 1);
    ASSERT_FALSE(saved) << key.kind << "/" << key.name;
    EXPECT_EQ(saved.error().kind, base::ErrorKind::bad_input);
  }
  EXPECT_FALSE(shelf.save(sour, std::string((4U << 20U) + 1, 'x'), 0, 1));
  EXPECT_EQ(number_of(shelf.save(sour, std::string(4U << 20U, 'x'), 0, 1)), 1);
}

TEST(Shelf, SaysWhatIsWrongWithAFileItCannotUse) {
  const Place place;
  const auto said = [](const std::filesystem::path& path) {
    const auto shelf = Shelf::open(path);
    return shelf ? std::string() : shelf.error().message;
  };
  std::ofstream(place / "text.shelf") << std::string(4096, 'x');
  EXPECT_NE(said(place / "text.shelf").find("this is not a shelf, or it is damaged"), std::string::npos);
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open((place / "other.db").c_str(), &other), SQLITE_OK);
  sqlite3_exec(other, "CREATE TABLE theirs (a)", nullptr, nullptr, nullptr);
  sqlite3_close(other);
  EXPECT_NE(said(place / "other.db").find("belongs to another program"), std::string::npos);
  EXPECT_NE(said(place / "").find("cannot be opened"), std::string::npos);
}

TEST(Shelf, AFullDiskLeavesItAsItWas) {
  const Place place;
  Shelf shelf = open(place / "a.shelf");
  shelf.save(sour, "small", 0, 1);
  // A limit on the size of files stands in for the disk's end. The signal that comes with it is not wanted.
  struct rlimit before {};
  ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
  std::signal(SIGXFSZ, SIG_IGN);
  struct rlimit tight = before;
  tight.rlim_cur = 256U << 10U;
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &tight), 0);
  const auto saved = shelf.save(sour, std::string(2U << 20U, 'x'), 1, 2);
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &before), 0);
  ASSERT_FALSE(saved);
  EXPECT_NE(saved.error().message.find("nothing was saved, the shelf is as it was"), std::string::npos) << saved.error().message;
  EXPECT_EQ(shelf.read(sour)->text, "small");
  EXPECT_EQ(number_of(shelf.save(sour, "larger", 1, 3)), 2);
  EXPECT_TRUE(shelf.check()->empty());
}

TEST(Shelf, AFolderThatMayNotBeWrittenIsSaid) {
  const Place place;
  std::filesystem::create_directories(place / "shut");
  ASSERT_EQ(::chmod((place / "shut").c_str(), 0555), 0);
  // In a process of its own that is nobody in particular: root may write everywhere.
  const pid_t child = ::fork();
  if (child == 0) {
    constexpr uid_t nobody = 65534;
    if (::geteuid() == 0 && ::setuid(nobody) != 0) ::_exit(2);
    const auto shelf = Shelf::open(place / "shut/a.shelf");
    ::_exit(!shelf && shelf.error().message.find("the folder must be there and may be written") != std::string::npos ? 0 : 1);
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0);
}

TEST(Shelf, ARevisionCannotBeChangedByAnyProgramThatKeepsToTheTables) {
  const Place place;
  open(place / "a.shelf").save(sour, "text", 0, 1);
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open((place / "a.shelf").c_str(), &other), SQLITE_OK);
  EXPECT_EQ(sqlite3_exec(other, "UPDATE revision SET text = 'gone'", nullptr, nullptr, nullptr), SQLITE_CONSTRAINT);
  EXPECT_EQ(sqlite3_exec(other, "DELETE FROM revision", nullptr, nullptr, nullptr), SQLITE_CONSTRAINT);
  // One that does not keep to them is found out.
  EXPECT_EQ(sqlite3_exec(other, "DROP TRIGGER revision_is_never_lost; DELETE FROM revision; DELETE FROM found", nullptr, nullptr, nullptr), SQLITE_OK);
  sqlite3_close(other);
  EXPECT_EQ(open(place / "a.shelf").check()->size(), 2U);
}

}  // namespace
}  // namespace bloomset::store
