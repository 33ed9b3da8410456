// http/shelf_calls.cpp - the shelf over the wire: what there is, a document and its revisions, saving without losing anybody's edit.
#include <charconv>

#include "http/answer.hpp"
#include "http/reading.hpp"
#include "press/json.hpp"

namespace bloomset::http {
namespace {

using text::Json;

constexpr const char* first_to_open = "Harbour Light";

Reply with_tag(Reply reply, std::int64_t revision) {
  reply.fields.emplace_back("ETag", "\"" + std::to_string(revision) + "\"");
  return reply;
}

std::optional<std::int64_t> number_of(std::string_view written) {
  std::int64_t number = 0;
  const auto [end, fault] = std::from_chars(written.data(), written.data() + written.size(), number);
  if (fault != std::errc() || end != written.data() + written.size() || number < 1) return std::nullopt;
  return number;
}

// The revision a change was made from: If-Match: "7", or 0 for If-None-Match: *.
base::Result<std::optional<std::int64_t>> made_from(const Request& request) {
  const std::string_view match = request.field("if-match"), none = request.field("if-none-match");
  if (match.empty() && none.empty()) return std::nullopt;
  if (match.empty() && none == "*") return 0;
  if (none.empty() && match.size() > 2 && match.front() == '"' && match.back() == '"')
    if (const auto number = number_of(match.substr(1, match.size() - 2))) return number;
  return base::fail(base::ErrorKind::bad_input, "If-Match names one revision, as in \"7\"; a new document says If-None-Match: *");
}

Json head_json(const store::Key& key, const store::Revision& revision) {
  Json out = press::document();
  out.set("kind", key.kind).set("name", key.name).set("revision", revision.number).set("saved_ms", revision.saved_ms).set("gone", revision.gone);
  return out;
}

Json revision_json(const store::Revision& revision) {
  Json out = Json::object();
  out.set("revision", revision.number).set("saved_ms", revision.saved_ms).set("gone", revision.gone).set("text", revision.text);
  return out;
}

Json entry_json(const store::Entry& entry) {
  Json out = Json::object();
  out.set("kind", entry.key.kind).set("name", entry.key.name).set("revision", entry.number).set("saved_ms", entry.saved_ms);
  return out;
}

Reply conflict(const store::Key& key, const store::Conflict& found) {
  Json out = press::document();
  out.set("error", error_json("conflict", key.kind + " `" + key.name + "` has been " + (found.theirs.gone ? "removed" : "saved") + " meanwhile"));
  out.set("theirs", revision_json(found.theirs)).set("began_from", found.began_from ? revision_json(*found.began_from) : Json());
  Reply reply = answer(out);
  reply.status = 412;
  return with_tag(std::move(reply), found.theirs.number);
}

Reply saved_as(const store::Key& key, const base::Result<store::Saved>& saved) {
  if (!saved) return refusal(saved.error());
  if (const auto* other = std::get_if<store::Conflict>(&*saved)) return conflict(key, *other);
  const auto& revision = std::get<store::Revision>(*saved);
  return with_tag(answer(head_json(key, revision)), revision.number);
}

Reply nothing_named() {
  return refusal(428, "bad_input", "say what this was made from: If-Match with the revision in quotes, or If-None-Match: * for a new document");
}

Reply as_document(const store::Key& key, const base::Result<store::Revision>& found) {
  if (!found) return refusal(found.error());
  Json out = head_json(key, *found);
  return with_tag(answer(out.set("text", found->text)), found->number);
}

}  // namespace

Reply hello(Call& call) {
  Json out = press::document();
  out.set("program", "bloomset").set("version", BLOOMSET_VERSION).set("shelf", call.house.path()).set("fresh", call.house.fresh());
  return answer(out.set("first", first_to_open).set("lan", call.pairing != nullptr));
}

Reply documents(Call& call) {
  const std::string kind = call.request.query("kind");
  const auto all = call.house.with_shelf([&](store::Shelf& shelf) { return shelf.list(kind); });
  if (!all) return refusal(all.error());
  Json out = press::document();
  return answer(out.set("documents", Json::array_of(*all, entry_json)));
}

Reply document(Call& call) {
  const store::Key key{call.names[0], call.names[1]};
  return as_document(key, call.house.with_shelf([&](store::Shelf& shelf) { return shelf.read(key); }));
}

Reply save(Call& call) {
  const store::Key key{call.names[0], call.names[1]};
  const auto from = made_from(call.request);
  if (!from) return refusal(from.error());
  if (!*from) return nothing_named();
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "a document", {"text"}, faults);
  fields.require("text");
  const text::Node* text = fields.string("text");
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  return saved_as(key, call.house.with_shelf([&](store::Shelf& shelf) { return shelf.save(key, text->string, **from, now_ms()); }));
}

Reply remove(Call& call) {
  const store::Key key{call.names[0], call.names[1]};
  const auto from = made_from(call.request);
  if (!from) return refusal(from.error());
  if (!*from) return nothing_named();
  return saved_as(key, call.house.with_shelf([&](store::Shelf& shelf) { return shelf.remove(key, **from, now_ms()); }));
}

Reply revisions(Call& call) {
  const auto all = call.house.with_shelf([&](store::Shelf& shelf) { return shelf.history({call.names[0], call.names[1]}); });
  if (!all) return refusal(all.error());
  Json out = press::document();
  return answer(out.set("revisions", Json::array_of(*all, [](const store::Revision& one) {
                          Json row = Json::object();
                          return row.set("revision", one.number).set("saved_ms", one.saved_ms).set("gone", one.gone).set("bytes", one.text.size());
                        })));
}

Reply revision(Call& call) {
  const store::Key key{call.names[0], call.names[1]};
  const auto number = number_of(call.names[2]);
  if (!number) return refusal(400, "bad_input", "a revision is a number from 1");
  return as_document(key, call.house.with_shelf([&](store::Shelf& shelf) { return shelf.read(key, *number); }));
}

Reply search(Call& call) {
  const auto all = call.house.with_shelf([&](store::Shelf& shelf) { return shelf.search(call.request.query("words")); });
  if (!all) return refusal(all.error());
  Json out = press::document();
  return answer(out.set("documents", Json::array_of(*all, [](const store::Entry& entry) {
                          Json row = entry_json(entry);
                          return row.set("excerpt", entry.excerpt);
                        })));
}

}  // namespace bloomset::http
