#include "shell/write_manual.h"

namespace dapple {

namespace {

// Text of a page: no character of it is taken for a command of the language.
std::string plain(const std::string& text) {
    std::string result;
    bool starts_line = true;
    for (const char c : text) {
        if (starts_line && (c == '.' || c == '\'')) result += "\\&";
        starts_line = c == '\n';
        if (c == '\\') {
            result += "\\e";
        } else {
            result += c == '-' ? std::string("\\-") : std::string(1, c);
        }
    }
    return result;
}

std::string bold(const std::string& text) {
    return "\\fB" + plain(text) + "\\fR";
}

std::string italic(const std::string& text) {
    return "\\fI" + plain(text) + "\\fR";
}

// "render SET [options]"
std::string synopsis(const CommandWords& command) {
    std::string line = bold("dapple " + command.name);
    for (const OptionWords& option : command.options) {
        if (option.place.empty()) continue;
        const std::string place = italic(option.place) + (option.is_repeated ? " ..." : "");
        line += option.is_required ? " " + place : " [" + place + "]";
    }
    return line + " [options]\n";
}

std::string option_entry(const OptionWords& option) {
    std::string names;
    for (const std::string& name : option.names) {
        names += (names.empty() ? "" : ", ") + bold(name);
    }
    if (!option.place.empty()) names = italic(option.place);
    const bool has_value = option.place.empty() && !option.value.empty();
    return ".TP\n" + names + (has_value ? " " + italic(option.value) : "") + "\n" +
           plain(option.about) + "\n";
}

std::string command_section(const CommandWords& command) {
    std::string text =
        ".SS " + command.name + "\n" + plain(command.about) + ".\n.PP\n" + synopsis(command);
    for (const bool is_advanced : {false, true}) {
        for (const OptionWords& option : command.options) {
            if (option.is_advanced == is_advanced) text += option_entry(option);
        }
    }
    if (!command.examples.empty()) {
        text += ".PP\n.nf\n" + plain(command.examples) + "\n.fi\n";
    }
    return text;
}

}  // namespace

std::string manual_page(const std::vector<CommandWords>& commands) {
    std::string text =
        ".TH DAPPLE 1 \"\" \"dapple " DAPPLE_VERSION
        "\" \"User commands\"\n.SH NAME\ndapple \\- see a lit set as the camera would expose it\n"
        ".SH SYNOPSIS\n";
    for (const CommandWords& command : commands) text += synopsis(command) + ".br\n";
    text +=
        ".SH DESCRIPTION\nDapple renders a set that a text file describes: the room, the camera, "
        "the fixtures, the glass, the cloths and the flags. The README tells what the file may "
        "hold.\n.SH COMMANDS\n";
    for (const CommandWords& command : commands) text += command_section(command);
    text +=
        ".SH EXIT STATUS\n.TP\n0\ndone\n.TP\n2\nsomething is wrong with what was given; a line "
        "says "
        "what\n.TP\n3\nstopped early; the results so far are kept\n.TP\n1\na fault of dapple "
        "itself\n";
    return text;
}

}  // namespace dapple
