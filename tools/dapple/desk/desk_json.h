// What the desk's page is told, as JSON.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/problems.h"
#include "desk/live_frame.h"
#include "desk/set_history.h"
#include "scene/day_sheet.h"
#include "scene/scene.h"

namespace dapple {

// The set file: its tables and keys as written, and what can be done with it. A text that is not
// TOML has no tables.
std::string set_json(const SetHistory& history, std::optional<uint64_t> merged);
// Only its tables, as a list; [] for a text that is not TOML.
std::string tables_text(const std::string& text);
// Names of the versions that are kept beside the set.
std::string versions_json(const std::vector<std::string>& names);
// A film is there to be asked about.
std::string film_json(uint64_t number, uint64_t version, bool is_moving);

// What can be added: the kit's entries, and what is wrong with kit files.
std::string kit_json(const std::string& set_path);

// The drawings from above and from the side: the room, and where everything stands.
std::string drawing_json(uint64_t version,
                         const DaySheet& sheet,
                         const std::vector<Column>& columns);

std::string problems_json(uint64_t version, const Problems& problems);

// What can hardly be meant, each with the line of its table in the set file.
std::string doubts_json(const Doubts& doubts);

// Of a picture all but its pixels.
std::string picture_json(uint64_t number, const LivePicture& picture);

}  // namespace dapple
