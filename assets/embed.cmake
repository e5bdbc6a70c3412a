# cmake -DIN=font -DOUT=font.cpp -DSYMBOL=name -P embed.cmake: a file as a C++ function that gives its bytes.
file(READ "${IN}" bytes HEX)
string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${bytes}")
string(REGEX REPLACE "(................................................................................)" "\\1\n    "
       bytes "${bytes}")
file(WRITE "${OUT}" "// Made by assets/embed.cmake.
#include \"assets/fonts.hpp\"

namespace shutlane {

std::span<const unsigned char> ${SYMBOL}() {
  static constexpr unsigned char bytes[] = {
    ${bytes}
  };
  return bytes;
}

}  // namespace shutlane
")
