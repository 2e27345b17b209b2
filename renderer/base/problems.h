// Problems in the user's files, one clear line each.
//
// Reading and checking collect every problem and continue; the command prints all problems and ends
// with exit code 2. A line reads
//   boathouse.toml:14:1: fixture.beam_angle_deg: is -5; must be above 0 and below 180
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace dapple {

// A place in a file. Lines and columns count from 1; 0 means "not known".
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
};

std::string to_string(const Place& place);  // "file:line:column", without the parts not known

struct Problem {
    Place place;
    std::string key;      // "fixture.beam_angle_deg"; empty: the file as a whole
    std::string message;  // what is wrong; what is allowed
};

std::string to_string(const Problem& problem);

class Problems {
  public:
    // Something that keeps the set from being rendered.
    void add(Place place, std::string key, std::string message);
    // Something that the user should know and that does not keep the set from being rendered ("not
    // rendered yet", "normals made").
    void note(Place place, std::string key, std::string message);

    bool empty() const { return problems_.empty(); }
    const std::vector<Problem>& all() const { return problems_; }
    const std::vector<Problem>& notes() const { return notes_; }

  private:
    std::vector<Problem> problems_;
    std::vector<Problem> notes_;
};

// A failure of the outside world: a missing file, a full disk. `what()` is a whole line for the
// user.
class FileError : public std::runtime_error {
  public:
    FileError(const std::string& path, const std::string& message)
        : std::runtime_error(path + ": " + message) {}
};

// The candidate nearest to `word` by edit distance, or "" where none is near enough.
std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates);

}  // namespace dapple
