// http/answer.hpp - replies in the wire's form: documents, faults with their places, and which status each kind of error has.
//
// The forms are those of api/openapi.json. Callers: every file of http that answers.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/result.hpp"
#include "http/message.hpp"
#include "text/json.hpp"

namespace bloomset::http {

/// 200 with a document, as printed or as a value.
Reply answer(std::string document);
Reply answer(const text::Json& document);

/// `Fault`s of a text; places point into `sources`.
text::Json faults_json(const std::vector<base::Diagnostic>&, const base::Sources&);
/// `Error`: kind, sentence and faults.
text::Json error_json(std::string_view kind, std::string_view says, text::Json faults = text::Json::array());
text::Json error_json(const base::Error&, const base::Sources&);

/// An ErrorBody.
Reply refusal(int status, std::string_view kind, std::string_view says);
/// 503: all places of long works are taken.
Reply busy();
/// An ErrorBody of an operation that failed: 400, 404, 412, 507 or 500.
Reply refusal(const base::Error&, const base::Sources& = {});

}  // namespace bloomset::http
