# Makes desk_parts.cpp from the desk's page:
#   cmake -D OUT=desk_parts.cpp -D PARTS=parts -D PAGE=renderer/page/parts -P embed.cmake
# Light is mixed by the scripts of the film's page.
set(page_scripts make.js codec.js picture.js light.js draw.js readings.js)
set(scripts ask.js words.js numbers.js choices.js drawn_room.js openings.js pick.js views.js follow.js standing.js carry.js snap.js facts.js keys.js things.js in_beam.js places.js add.js
    mistakes.js
    mixer.js frame.js camera.js hand.js meter.js judge.js doubts.js file.js client.js bounds.js wishes.js seek.js desk.js)
list(TRANSFORM page_scripts PREPEND ${PAGE}/)
list(TRANSFORM scripts PREPEND ${PARTS}/)
file(READ ${PARTS}/desk.html html)
file(READ ${PARTS}/desk.css style)
set(code "\"use strict\";\n")
foreach(script IN LISTS page_scripts scripts)
    file(READ ${script} text)
    string(APPEND code "${text}\n")
endforeach()
file(WRITE ${OUT} "#include \"desk/desk_parts.h\"

namespace dapple {

const char* const kDeskHtml = R\"PART(${html})PART\";
const char* const kDeskStyle = R\"PART(${style})PART\";
const char* const kDeskCode = R\"PART(${code})PART\";

}  // namespace dapple
")
