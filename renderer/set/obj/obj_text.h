// The words of OBJ and MTL text, read in place, with their lines and columns.
//
// A statement is a line; a backslash before the line's end joins the next line to it. `#` at the
// start of a word begins a comment, which ends with the line. Lines end in \n, \r\n or \r.
// Columns count bytes from 1.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "base/problems.h"

namespace dapple {

// A whole file in memory.
struct TextFile {
    std::unique_ptr<char[]> bytes;
    size_t size = 0;
    std::string_view text() const { return {bytes.get(), size}; }
};

// Says in `problems` why the file cannot be read as text, and returns false, where that is so:
// missing, a directory, not readable, too large, binary.
bool read_text_file(const std::string& path, Problems& problems, TextFile& file);

class ObjScanner {
  public:
    explicit ObjScanner(std::string_view text);

    // Leaves the current statement and gives the first word of the next; false at the end.
    bool next_statement(std::string_view& word);
    // The statement's next word; empty at its end.
    std::string_view next_word();
    // The rest of the line as one name that may hold blanks. A comment is cut off only where its
    // `#` stands alone: "Material #25" is a name.
    std::string_view rest_of_line();

    // Place of a word, asked for before the next one is read.
    int line() const { return line_; }
    int column(std::string_view word) const {
        return static_cast<int>(word.data() - line_start_) + 1;
    }

  private:
    bool joins_next_line(const char* backslash) const;
    void skip_blanks();
    void skip_line_break();
    void skip_line();

    const char* at_;
    const char* end_;
    const char* line_start_;
    int line_ = 1;
    bool in_statement_ = false;
};

// Reads a whole word as a finite number. Returns what is wrong with it, or nullptr.
const char* read_number(std::string_view word, float& value);

}  // namespace dapple
