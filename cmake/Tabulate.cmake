# bloomset_table(TARGET SUBJECT…): data/TARGET/SUBJECT.csv becomes the header TARGET/SUBJECT_table.hpp (constexpr arrays in
# bloomset::TARGET::table), seen by TARGET's own sources only. The format and its checks: tools/tabulate.cpp.
# Call it after bloomset_module(TARGET …).
if(NOT TARGET tabulate)
  add_executable(tabulate "${CMAKE_SOURCE_DIR}/tools/tabulate.cpp")
  set_target_properties(tabulate PROPERTIES RUNTIME_OUTPUT_DIRECTORY "${CMAKE_BINARY_DIR}/tools")
endif()

function(bloomset_table target)
  set(folder "${CMAKE_BINARY_DIR}/generated/${target}")
  file(MAKE_DIRECTORY "${folder}")
  foreach(subject ${ARGN})
    set(in "${CMAKE_SOURCE_DIR}/data/${target}/${subject}.csv")
    set(out "${folder}/${subject}_table.hpp")
    add_custom_command(
      OUTPUT "${out}"
      COMMAND tabulate "${in}" "${CMAKE_SOURCE_DIR}/data/sources.bib" "bloomset::${target}::table" "${out}"
      DEPENDS tabulate "${in}" "${CMAKE_SOURCE_DIR}/data/sources.bib"
      COMMENT "Tabulating ${target}/${subject}"
      VERBATIM)
    target_sources(${target} PRIVATE "${out}")
  endforeach()
  target_include_directories(${target} PRIVATE "${CMAKE_BINARY_DIR}/generated")
endfunction()
