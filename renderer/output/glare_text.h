// What is said of glare on the screen. Private to this folder.
#pragma once

#include <string>

#include "judge/judge_film.h"

namespace dapple {

// The lines below the heading.
std::string glare_text(const GlareJudgement& glare, const FilmRecord& record);

}  // namespace dapple
