# A file as a C++ literal, for the scripts that embed files in the program. It is cut into pieces, because compilers need not
# take literals above 64 kB.

# embedded_literal(FILE DELIMITER OUT): sets OUT to R"DELIMITER(...)DELIMITER", a piece a line.
function(embedded_literal source delimiter out)
  set(piece_bytes 16000)
  file(SIZE "${source}" length)
  set(literal "")
  set(at 0)
  while(at LESS length)
    file(READ "${source}" piece OFFSET ${at} LIMIT ${piece_bytes})
    string(APPEND literal "R\"${delimiter}(${piece})${delimiter}\"\n")
    math(EXPR at "${at} + ${piece_bytes}")
  endwhile()
  set(${out} "${literal}" PARENT_SCOPE)
endfunction()
