# embed_page(TARGET FUNCTION FOLDER FILE…): makes files of FOLDER part of TARGET, as rows of `bloomset::http::FUNCTION()` (src/http/embedded.hpp)
# with their paths below FOLDER. As in EmbedData.cmake the bytes enter through .incbin, and a change of a file rebuilds. No FILE: no rows.
enable_language(ASM)
function(embed_page target function folder)
  set(asm "${CMAKE_CURRENT_BINARY_DIR}/${function}.S")
  set(cpp "${CMAKE_CURRENT_BINARY_DIR}/${function}.cpp")
  set(asm_text ".section .rodata\n")
  set(externs "")
  set(rows "")
  set(index 0)
  foreach(file ${ARGN})
    file(RELATIVE_PATH path "${folder}" "${file}")
    set(name "${function}_${index}")
    string(APPEND asm_text ".balign 16\n.global ${name}\n${name}:\n.incbin \"${file}\"\n.global ${name}_end\n${name}_end:\n.byte 0\n")
    string(APPEND externs "extern \"C\" const char ${name}[];\nextern \"C\" const char ${name}_end[];\n")
    string(APPEND rows "      {\"${path}\", {${name}, static_cast<std::size_t>(${name}_end - ${name})}},\n")
    set_property(SOURCE "${asm}" APPEND PROPERTY OBJECT_DEPENDS "${file}")
    math(EXPR index "${index}+1")
  endforeach()
  string(APPEND asm_text ".section .note.GNU-stack,\"\",@progbits\n")
  file(CONFIGURE OUTPUT "${asm}" CONTENT "${asm_text}" @ONLY)
  file(CONFIGURE OUTPUT "${cpp}" CONTENT "#include <vector>\n#include \"http/embedded.hpp\"\n${externs}namespace bloomset::http {
std::span<const EmbeddedFile> ${function}() {
  static const std::vector<EmbeddedFile> files = {
${rows}  };
  return files;
}
}
" @ONLY)
  target_sources(${target} PRIVATE "${asm}" "${cpp}")
endfunction()
