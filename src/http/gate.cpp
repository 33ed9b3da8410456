#include "http/gate.hpp"

#include "http/answer.hpp"

namespace bloomset::http {
namespace {

std::string_view port_of(std::string_view address) { return address.substr(address.rfind(':') + 1); }

bool names_us(const Request& request) {
  const std::string_view host = request.field("host");
  return host == request.came_to || (request.from_here && host == "localhost:" + std::string(port_of(request.came_to)));
}

// Absent fields come from programs that are no browser: these can do on this machine what its user can.
bool from_our_page(const Request& request) {
  const std::string_view origin = request.field("origin"), site = request.field("sec-fetch-site");
  if (!origin.empty() && origin != "http://" + std::string(request.field("host"))) return false;
  return site.empty() || site == "same-origin" || site == "none";
}

bool is_json(std::string_view type) {
  const std::string_view name = type.substr(0, type.find(';'));
  return name == "application/json" || name == "application/json ";
}

}  // namespace

bool is_call(const Request& request) { return request.path().starts_with("/api/"); }

std::optional<Reply> turned_away(const Request& request, const Pairing* pairing) {
  if (!names_us(request)) return refusal(421, "refused", "this server is asked by its own address, " + request.came_to + ", and by no other name");
  if (!is_call(request)) return std::nullopt;
  const bool reads = request.method == "GET" || request.method == "HEAD";
  if (!reads && !from_our_page(request)) return refusal(403, "refused", "only the page of this server may ask for this");
  if (!request.from_here && (pairing == nullptr || !pairing->admits(request.field("cookie"))) && request.path() != "/api/v1/pair")
    return refusal(401, "unpaired", "this device is not paired: type the six digits that the program printed");
  if (!reads && (request.method != "DELETE" || !request.body.empty()) && !is_json(request.field("content-type")))
    return refusal(415, "bad_input", "a body is application/json");
  return std::nullopt;
}

}  // namespace bloomset::http
