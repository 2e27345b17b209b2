// What the morning shows: the ranking, overnight.json, table.csv, the contact sheet, the page of
// the night, and the pages with sliders of the best variants. Everything is made from what the
// night's folder holds, so it can be written while the night runs, at its end, or after a merge.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "develop/develop.h"
#include "night/night_files.h"

namespace dapple {

// Fills in the ranks of `states`, whose `stats` are those of the variants' statistics files. Films
// that cannot be read are left out. `with_sliders`: also NAME.html in the folders of the best
// variants, which takes some seconds for each. Throws FileError if a file cannot be written.
void write_morning(const std::string& folder,
                   const NightPlan& plan,
                   std::vector<NightVariantState>& states,
                   bool with_sliders);

// Its parts, of ranked variants.

// A variant's developed frame, from its PNG; nothing if it cannot be read.
std::optional<Picture> night_picture(const std::string& folder,
                                     const NightPlan& plan,
                                     size_t variant);

// sheet.pdf, sheet.png and so on, the best first. Nothing if no variant has a picture.
void write_night_sheet(const std::string& folder,
                       const NightPlan& plan,
                       const std::vector<NightVariantState>& states);

// sheet.html.
void write_night_page(const std::string& folder,
                      const NightPlan& plan,
                      const std::vector<NightVariantState>& states);

}  // namespace dapple
