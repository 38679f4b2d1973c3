# lodeway_module(terrain DEPENDS earth SOURCES slope.cpp HEADERS raster.hpp slope.hpp FOREIGN ...)
#   makes lodeway_terrain (alias lodeway::terrain). Headers are compiled each on its own by the
#   target all_verify_interface_header_sets. Sources are listed, never globbed. GLUE: none of it is
#   slow, it is compiled with little optimisation.
function(lodeway_module name)
  cmake_parse_arguments(M "GLUE" "" "DEPENDS;SOURCES;HEADERS;FOREIGN" ${ARGN})
  set(target lodeway_${name})
  if(M_SOURCES)
    set(scope PUBLIC)
    add_library(${target} STATIC ${M_SOURCES})
    target_link_libraries(${target} PRIVATE ${M_FOREIGN})
    if(M_GLUE)
      lodeway_glue(${target})
    else()
      target_precompile_headers(${target} REUSE_FROM lodeway_common)
    endif()
  else()
    set(scope INTERFACE)
    add_library(${target} INTERFACE)
  endif()
  add_library(lodeway::${name} ALIAS ${target})
  target_sources(${target} ${scope} FILE_SET HEADERS BASE_DIRS "${CMAKE_SOURCE_DIR}/src"
                 FILES ${M_HEADERS})
  target_include_directories(${target} ${scope} "${CMAKE_SOURCE_DIR}/src")
  target_link_libraries(${target} ${scope} lodeway_flags)
  set_target_properties(${target} PROPERTIES VERIFY_INTERFACE_HEADER_SETS ON)
  foreach(d ${M_DEPENDS})
    target_link_libraries(${target} ${scope} lodeway::${d})
  endforeach()
endfunction()

# lodeway_test(terrain SOURCES slope_test.cpp DEPENDS io): one executable a module, its tests
# known to ctest by the module's name. SHARDS n: it runs as n tests, name_1 to name_n, each with a
# part of the cases, so that none lasts longer than a minute alone. TOGETHER: its files are compiled
# together, but for those ALONE, whose own short names another has too.
function(lodeway_test name)
  cmake_parse_arguments(T "TOGETHER" "SHARDS" "SOURCES;DEPENDS;FOREIGN;ALONE" ${ARGN})
  set(target test_${name})
  add_executable(${target} ${T_SOURCES})
  target_compile_options(${target} PRIVATE -O1)
  target_precompile_headers(${target} REUSE_FROM lodeway_common_test)
  target_include_directories(${target} PRIVATE "${CMAKE_SOURCE_DIR}/tests")
  if(TARGET lodeway::${name})
    target_link_libraries(${target} PRIVATE lodeway::${name})
  endif()
  target_link_libraries(${target} PRIVATE ${T_FOREIGN} lodeway_test_support
                        GTest::gtest GTest::gtest_main lodeway_flags)
  foreach(d ${T_DEPENDS})
    target_link_libraries(${target} PRIVATE lodeway::${d})
  endforeach()
  if(T_TOGETHER)
    lodeway_together(${target} EXCEPT ${T_ALONE})
  endif()
  if(T_SHARDS)
    foreach(k RANGE 1 ${T_SHARDS})
      math(EXPR index "${k} - 1")
      add_test(NAME ${name}_${k} COMMAND ${target})
      set_tests_properties(${name}_${k} PROPERTIES TIMEOUT 900
        ENVIRONMENT "GTEST_TOTAL_SHARDS=${T_SHARDS};GTEST_SHARD_INDEX=${index}")
    endforeach()
  else()
    add_test(NAME ${name} COMMAND ${target})
    set_tests_properties(${name} PROPERTIES TIMEOUT 900)
  endif()
endfunction()

# lodeway_bench(route field_bench.cpp …)
function(lodeway_bench name)
  cmake_parse_arguments(B "" "" "SOURCES;DEPENDS;FOREIGN" ${ARGN})
  find_package(benchmark REQUIRED)
  add_executable(bench_${name} ${B_SOURCES})
  target_link_libraries(bench_${name} PRIVATE lodeway::${name} ${B_FOREIGN} benchmark::benchmark
                        lodeway_flags)
  foreach(d ${B_DEPENDS})
    target_link_libraries(bench_${name} PRIVATE lodeway::${d})
  endforeach()
endfunction()

# lodeway_embed(target symbol file): the file's bytes, unchanged, as
#   extern "C" const unsigned char <symbol>[]; extern "C" const unsigned <symbol>_size;
function(lodeway_embed target symbol file)
  set(out "${CMAKE_CURRENT_BINARY_DIR}/${symbol}.cpp")
  add_custom_command(OUTPUT "${out}"
    COMMAND python3 "${CMAKE_SOURCE_DIR}/tools/embed" ${symbol} "${file}" "${out}"
    DEPENDS "${file}" "${CMAKE_SOURCE_DIR}/tools/embed" VERBATIM)
  target_sources(${target} PRIVATE "${out}")
  set_source_files_properties("${out}" PROPERTIES SKIP_LINTING ON SKIP_PRECOMPILE_HEADERS ON
                              SKIP_UNITY_BUILD_INCLUSION ON)
endfunction()
