#include "http/answer.hpp"

#include "press/json.hpp"

namespace bloomset::http {
namespace {

using text::Json;

struct KindOfError {
  const char* name;
  int status;
};
KindOfError of(base::ErrorKind kind) {
  switch (kind) {
    case base::ErrorKind::bad_input:
      return {"bad_input", 400};
    case base::ErrorKind::not_found:
      return {"not_found", 404};
    case base::ErrorKind::io:
      return {"io", 507};
    case base::ErrorKind::conflict:
      return {"conflict", 412};
    case base::ErrorKind::internal:
      break;
  }
  return {"internal", 500};
}

Reply body(int status, Json error) {
  Json out = press::document();
  out.set("error", std::move(error));
  return {status, "application/json", out.print() + "\n", {}, {}};
}

}  // namespace

Reply answer(std::string document) { return {200, "application/json", std::move(document), {}, {}}; }
Reply answer(const Json& document) { return answer(document.print() + "\n"); }

Json faults_json(const std::vector<base::Diagnostic>& faults, const base::Sources& sources) {
  return Json::array_of(faults, [&](const base::Diagnostic& fault) { return press::fault_json(fault, sources); });
}

Json error_json(std::string_view kind, std::string_view says, Json faults) {
  Json out = Json::object();
  out.set("kind", kind).set("says", says).set("faults", std::move(faults));
  return out;
}

Json error_json(const base::Error& error, const base::Sources& sources) {
  return error_json(of(error.kind).name, error.message, faults_json(error.diagnostics, sources));
}

Reply refusal(int status, std::string_view kind, std::string_view says) { return body(status, error_json(kind, says)); }

Reply busy() { return refusal(503, "refused", "other long works go on: wait for them, or cancel one"); }

Reply refusal(const base::Error& error, const base::Sources& sources) { return body(of(error.kind).status, error_json(error, sources)); }

}  // namespace bloomset::http
