// The glare in the JSON files of statistics and judgement, and in that of a film. Private to this
// folder.
#pragma once

#include <nlohmann/json.hpp>

#include "judge/judge_film.h"

namespace dapple {

// What is said of glare, and the lamps that make it. What is not known is null.
nlohmann::ordered_json glare_json(const GlareJudgement& glare, const FilmRecord& record);

// The report as a film keeps it.
nlohmann::ordered_json glare_report_json(const GlareReport& report);
// Throws what the library throws, or std::invalid_argument.
GlareReport parse_glare_report(const nlohmann::ordered_json& json);

}  // namespace dapple
