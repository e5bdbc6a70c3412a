# cmake -DOUT=bundled.cpp -P bundle.cmake -- FILE.toml ...: the engine files as C++ raw strings, sorted by name.
set(files "")
set(after_dashes FALSE)
math(EXPR last "${CMAKE_ARGC} - 1")
foreach(i RANGE ${last})
  if(after_dashes)
    list(APPEND files "${CMAKE_ARGV${i}}")
  elseif("${CMAKE_ARGV${i}}" STREQUAL "--")
    set(after_dashes TRUE)
  endif()
endforeach()
# By name, not by file: in "v12.toml" and "v12-x.toml" the ending would turn the order round.
set(names "")
foreach(file IN LISTS files)
  get_filename_component(name "${file}" NAME_WE)
  set(path_of_${name} "${file}")
  list(APPEND names "${name}")
endforeach()
list(SORT names)
set(body "")
foreach(name IN LISTS names)
  file(READ "${path_of_${name}}" text)
  string(APPEND body "    {\"${name}\", R\"toml(${text})toml\"},\n")
endforeach()
file(WRITE "${OUT}" "// Made by bundle.cmake from engines/*.toml.
#include \"engines/catalog.hpp\"

namespace shutlane {

const std::vector<BundledFile>& bundled_files() {
  static const std::vector<BundledFile> files = {
${body}  };
  return files;
}

}  // namespace shutlane
")
