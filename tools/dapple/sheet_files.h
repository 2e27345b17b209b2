// What `dapple sheet` writes for paper and for the client: a mood frame of each film as PNG, JPEG
// and TIFF, and the contact sheet of all as PDF and PNG.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "develop/develop.h"
#include "develop/film_record.h"
#include "output/safe_file.h"
#include "sheets/contact_sheet.h"

namespace dapple {

// Files that are whole and get their names by commit().
using FinishedFiles = std::vector<std::unique_ptr<SafeFile>>;

// BASE.pdf, BASE.png, and for more pages BASE-2.png and so on.
void add_contact_sheet(const std::string& base, const ContactSheet& sheet, FinishedFiles& files);

// The frame as it is shown: the clean one, if the record has it.
Picture developed(const FilmRecord& record);

// `films` are EXRs. Everything is made before the first file gets its name, so that a film that
// cannot be read changes nothing. Returns the paths of the files. Throws FileError.
std::vector<std::string> write_sheet_files(const std::vector<std::string>& films,
                                           const std::string& folder);

}  // namespace dapple
