# Headers that nearly every file needs, read once for each set of flags: half of a small file's time
# went into reading the standard library. The preset dev does without, so that a file that forgets
# an include of its own is found there.
set(lodeway_common_headers
  <algorithm> <array> <charconv> <chrono> <cmath> <cstdint> <expected> <functional> <limits> <map>
  <memory> <numbers> <numeric> <optional> <ranges> <set> <span> <string> <string_view>
  <unordered_map> <utility> <vector> <fmt/format.h>)

# lodeway_precompile(name LINK … HEADERS …): the owner of a precompiled header. Who uses it
# (target_precompile_headers REUSE_FROM) has the same flags.
function(lodeway_precompile name)
  cmake_parse_arguments(P "" "" "LINK;OPTIONS;HEADERS" ${ARGN})
  set(empty "${CMAKE_BINARY_DIR}/${name}.cpp")
  file(CONFIGURE OUTPUT "${empty}" CONTENT "")
  add_library(${name} OBJECT "${empty}")
  target_compile_options(${name} PRIVATE ${P_OPTIONS})
  target_link_libraries(${name} PRIVATE lodeway_flags ${P_LINK})
  target_precompile_headers(${name} PRIVATE ${lodeway_common_headers} ${P_HEADERS})
endfunction()

lodeway_precompile(lodeway_common)
# Glue: files that call what is slow and are not slow themselves.
lodeway_precompile(lodeway_common_glue OPTIONS -O1)
lodeway_precompile(lodeway_common_json OPTIONS -O1 HEADERS <nlohmann/json.hpp>)
lodeway_precompile(lodeway_common_test OPTIONS -O1 LINK GTest::gtest HEADERS <gtest/gtest.h>)

# Files of one part that are compiled together, eight at a time: headers are read and their templates
# made once for all of them, which is a third to a half of the time. The preset dev compiles each
# alone, so that a file that leans on its neighbour is found there. Not for what must be fast: there a
# file's own inlining was measured. EXCEPT: files whose own short names another file has too.
option(LODEWAY_TOGETHER "Compile the files of large glue parts together" ON)
function(lodeway_together target)
  cmake_parse_arguments(T "" "" "EXCEPT" ${ARGN})
  if(T_EXCEPT)
    set_source_files_properties(${T_EXCEPT} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
  endif()
  set_target_properties(${target} PROPERTIES UNITY_BUILD ${LODEWAY_TOGETHER} UNITY_BUILD_BATCH_SIZE 8)
endfunction()

# Glue is compiled with little optimisation. JSON: nearly all of its files write JSON (a header that
# costs every file a second, precompiled or not).
function(lodeway_glue target)
  cmake_parse_arguments(G "JSON" "" "" ${ARGN})
  target_compile_options(${target} PRIVATE -O1)
  if(G_JSON)
    target_precompile_headers(${target} REUSE_FROM lodeway_common_json)
  else()
    target_precompile_headers(${target} REUSE_FROM lodeway_common_glue)
  endif()
endfunction()
