// Whose sheets are in a folder: `dapple sheet` leaves sheet.json beside them, with the sets and the
// films that they are of, so that another set's sheets do not overwrite them.
#pragma once

#include <string>
#include <vector>

namespace dapple {

// Throws FileError if the folder has sheets of other sets alone, of which one is still there, if
// it has the sheet of a night, or if NAME.stats.json of one of the `names` is of another set. The
// sets are those that the films keep; a film that keeps none may go anywhere.
void check_sheet_owner(const std::string& folder,
                       const std::vector<std::string>& films,
                       const std::vector<std::string>& names);

// Writes sheet.json and returns its path.
std::string write_sheet_owner(const std::string& folder, const std::vector<std::string>& films);

}  // namespace dapple
