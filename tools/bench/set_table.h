// One row for each of many sets: how far a picture is from the truth after a given time.
//
// Every set is rendered as one region, the whole frame, with the same options. The worst row is the
// result: a change that helps one set and harms another shows.
#pragma once

#include <cstdio>
#include <string>
#include <vector>

namespace dapple {

// How far one picture is from the truth.
struct PictureError {
    double rel_mse = 0;  // compare.h
    // Share of pixels whose display value is more than 1/16 of the display's range from the mean of
    // the references.
    double wrong_share = 0;
    // Pixels brighter than three times the median of the 5 × 5 pixels around them where the mean of
    // the references has no such pixel, per million.
    double specks_per_million = 0;
};

struct SetRow {
    std::string set;
    int fixtures = 0;
    int passes = 0;
    double seconds = 0;
    double rays_per_second = 0;
    PictureError film;                 // as measured
    PictureError clean;                // the clean frame
    double reference_wrong_share = 0;  // the same share for one reference against the other
};

struct SetTableOptions {
    std::vector<std::string> sets;  // set files
    double seconds = 30;
    double reference_seconds = 60;  // of each of two references
    int width = 480;                // px
};

// Renders the sets one after the other and prints each row when it is known. A set that cannot be
// read is reported and makes the result false.
bool make_set_table(const SetTableOptions& options, std::FILE* to, std::vector<SetRow>& rows);

// The set files of a folder, by name.
std::vector<std::string> set_files_in(const std::string& folder);

}  // namespace dapple
