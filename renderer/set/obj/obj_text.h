// Splits OBJ and MTL text into statements and words, with their lines and columns.
//
// A statement is one line, or several lines that are joined by a backslash at the end of each but
// the last. A word that starts with `#` begins a comment, which ends with the line. Lines end in
// \n, \r\n or \r. Columns count bytes from 1. Words point into the text.
#pragma once

#include <span>
#include <string_view>

namespace dapple {

class ObjScanner {
  public:
    explicit ObjScanner(std::string_view text);

    // Goes to the next statement and reads its first word. Returns false at the end of the text.
    bool next_statement(std::string_view& word);
    // Returns the statement's next word, or an empty one at its end.
    std::string_view next_word();
    // Returns the rest of the line as one name, which may contain blanks. A comment is removed only
    // if its `#` is a word of its own: "Material #25" is a name.
    std::string_view rest_of_line();

    // The place of the word that was read last.
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

bool is_one_of(std::string_view word, std::span<const std::string_view> words);

// Reads a whole word as a finite number. Returns what is wrong with the word, or nullptr.
const char* read_number(std::string_view word, float& value);
const char* read_number(std::string_view word, double& value);

}  // namespace dapple
