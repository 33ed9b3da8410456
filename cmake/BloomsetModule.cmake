# bloomset_module(NAME SOURCES … [PUBLIC …] [PRIVATE …]): one static library a module.
# PUBLIC and PRIVATE name what the module links; tests/law holds them against the module table of ARCHITECTURE.md.
# bloomset_test(NAME SOURCES … LINKS …): one GoogleTest program, registered with CTest test by test.
include(GoogleTest)

add_library(bloomset_warnings INTERFACE)
target_compile_options(bloomset_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wnon-virtual-dtor -Wold-style-cast -Wcast-align
  -Woverloaded-virtual -Wdouble-promotion -Wformat=2 -Werror)

# Answers must be the same bits on every x86-64 machine: no fused multiply-add, no reordering.
add_library(bloomset_numbers INTERFACE)
target_compile_options(bloomset_numbers INTERFACE -ffp-contract=off)

if(BLOOMSET_SANITIZE)
  add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  add_link_options(-fsanitize=address,undefined)
endif()
find_program(BLOOMSET_MOLD mold)
if(BLOOMSET_MOLD)
  add_link_options(-fuse-ld=mold)
endif()

function(bloomset_module name)
  cmake_parse_arguments(arg "" "" "SOURCES;PUBLIC;PRIVATE" ${ARGN})
  add_library(${name} STATIC ${arg_SOURCES})
  add_library(bloomset::${name} ALIAS ${name})
  target_include_directories(${name} PUBLIC "${CMAKE_SOURCE_DIR}/src")
  target_link_libraries(${name} PUBLIC ${arg_PUBLIC} bloomset_numbers PRIVATE ${arg_PRIVATE} bloomset_warnings)
endfunction()

function(bloomset_test name)
  cmake_parse_arguments(arg "" "" "SOURCES;LINKS" ${ARGN})
  add_executable(${name} ${arg_SOURCES})
  target_include_directories(${name} PRIVATE "${CMAKE_SOURCE_DIR}/tests")
  target_compile_definitions(${name} PRIVATE BLOOMSET_SOURCE_DIR="${CMAKE_SOURCE_DIR}" BLOOMSET_BINARY_DIR="${CMAKE_BINARY_DIR}")
  target_link_libraries(${name} PRIVATE ${arg_LINKS} GTest::gtest_main bloomset_warnings)
  gtest_discover_tests(${name} DISCOVERY_MODE PRE_TEST)
endfunction()
