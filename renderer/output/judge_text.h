// The judgement of a film as one screen of text, and as JSON.
#pragma once

#include <string>

#include "judge/judge_film.h"

namespace dapple {

// Plain words first, figures after. Not wider than 100 columns for names of ordinary length.
std::string judge_text(const FilmStatistics& statistics, const FilmRecord& record);

// Keys: design of the JSON in README.md. What is not known is null, with the reason under `why`.
std::string judge_json_text(const FilmStatistics& statistics, const FilmRecord& record);

}  // namespace dapple
