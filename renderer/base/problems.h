// What is wrong with the user's files, said in one clear line each.
//
// Reading and checking collect every problem they find and go on; the command prints them all and
// ends with exit code 2. A line reads
//   boathouse.toml:14:1: fixture.beam_angle_deg: is -5; must be above 0 and below 180
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace dapple {

// Where in a file a thing stands. Lines and columns count from 1; 0 means "not known".
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
};

std::string to_string(const Place& place);  // "file:line:column", without the parts not known

struct Problem {
    Place place;
    std::string key;      // "fixture.beam_angle_deg"; empty where a file as a whole is meant
    std::string message;  // what is wrong; what is allowed
};

std::string to_string(const Problem& problem);

class Problems {
  public:
    // Something that keeps the set from being rendered.
    void add(Place place, std::string key, std::string message);
    // Something the user should know but that stops nothing ("not rendered yet", "normals made").
    void note(Place place, std::string key, std::string message);

    bool empty() const { return problems_.empty(); }
    const std::vector<Problem>& all() const { return problems_; }
    const std::vector<Problem>& notes() const { return notes_; }

  private:
    std::vector<Problem> problems_;
    std::vector<Problem> notes_;
};

// The outside world said no: a missing file, a full disk. `what()` is a whole line for the user.
class FileError : public std::runtime_error {
  public:
    FileError(const std::string& path, const std::string& message)
        : std::runtime_error(path + ": " + message) {}
};

// The candidate nearest to `word` by edit distance, or "" where none is near enough to be meant.
std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates);

}  // namespace dapple
