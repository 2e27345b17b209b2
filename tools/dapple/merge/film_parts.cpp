#include "merge/film_parts.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <tuple>

#include "base/problems.h"
#include "film/merge_films.h"

namespace dapple {

namespace {

// The last bytes of the file.
uint64_t read_checksum(std::istream& in) {
    uint64_t sum = 0;
    in.clear();
    in.seekg(-static_cast<std::streamoff>(sizeof sum), std::ios::end);
    in.read(reinterpret_cast<char*>(&sum), sizeof sum);
    return sum;
}

[[noreturn]] void refuse_other(const std::string& path, const std::string& than) {
    throw FileError(path,
                    "holds passes of another set, size, seed or version than " + than +
                        "; only parts of one film can be added");
}

// The parts that are counted, sorted by their passes.
std::vector<FilmPart> choose_parts(std::vector<FilmPart> parts,
                                   std::vector<std::string>& left_out) {
    std::sort(parts.begin(), parts.end(), [](const FilmPart& a, const FilmPart& b) {
        const auto key = [](const FilmPart& p) {
            return std::tuple(-p.passes.count(), p.passes.flat(), p.checksum, p.path);
        };
        return key(a) < key(b);
    });
    std::vector<FilmPart> chosen;
    for (FilmPart& part : parts) {
        if (part.fingerprint != parts.front().fingerprint) {
            refuse_other(part.path, parts.front().path);
        }
        const auto other = std::find_if(chosen.begin(), chosen.end(), [&](const FilmPart& c) {
            return c.passes.overlaps(part.passes);
        });
        if (other == chosen.end()) {
            chosen.push_back(part);
        } else if (other->passes.contains(part.passes)) {
            left_out.push_back(part.path + ": is left out; " + other->path + " has its passes");
        } else {
            throw FileError(part.path,
                            "holds passes " + to_string(part.passes) + ", and " + other->path +
                                " holds passes " + to_string(other->passes) +
                                ": some are the same; only whole parts can be left out");
        }
    }
    return chosen;
}

// Whether the parts together have all of the passes.
bool have_all(const std::vector<FilmPart>& parts, PassRanges passes) {
    for (const FilmPart& part : parts) {
        PassRanges rest;
        for (const PassRange& range : passes.ranges()) {
            rest.add(missing_passes(part.passes, range));
        }
        passes = rest;
    }
    return passes.count() == 0;
}

}  // namespace

std::optional<FilmPart> read_film_part(const std::string& path,
                                       std::vector<std::string>& left_out) {
    std::ifstream in(path, std::ios::binary);
    if (!in) return std::nullopt;
    const std::variant<CheckpointHead, NoCheckpoint> found = read_checkpoint_head(in);
    if (const auto* head = std::get_if<CheckpointHead>(&found)) {
        return FilmPart{path, head->fingerprint, head->passes, read_checksum(in)};
    }
    if (std::get<NoCheckpoint>(found) == NoCheckpoint::kOther) {
        refuse_other(path, "this program's");
    }
    left_out.push_back(path + ": is damaged and left out");
    return std::nullopt;
}

MergedFilm merge_parts(std::vector<FilmPart> parts) {
    MergedFilm merged;
    for (const FilmPart& part : choose_parts(std::move(parts), merged.left_out)) {
        std::ifstream in(part.path, std::ios::binary);
        std::variant<Checkpoint, NoCheckpoint> read = read_checkpoint(in, part.fingerprint);
        auto* const film = std::get_if<Checkpoint>(&read);
        if (!film) {
            merged.left_out.push_back(part.path + ": is damaged and left out");
        } else if (!merged.film) {
            merged.film = std::move(*film);
        } else if (!add_checkpoint(*merged.film, *film)) {
            refuse_other(part.path, "the other parts");
        }
    }
    return merged;
}

MergedFilm merge_parts_into(std::vector<FilmPart> parts, const std::string& path) {
    std::vector<std::string> left_out;
    const std::optional<FilmPart> earlier = read_film_part(path, left_out);
    const bool is_other = earlier && !parts.empty() && earlier->fingerprint != parts[0].fingerprint;
    if (is_other) refuse_other(path, parts[0].path);
    if (earlier && !have_all(parts, earlier->passes)) parts.push_back(*earlier);
    MergedFilm merged = merge_parts(std::move(parts));
    merged.left_out.insert(merged.left_out.end(), left_out.begin(), left_out.end());
    return merged;
}

}  // namespace dapple
