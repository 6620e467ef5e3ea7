# Completion of gamut for fish. What may come next the program itself says; see src/cli/complete.h.
function __gamut_candidates
    set -l words (commandline -opc) (commandline -ct)
    set -l option (string match -r '^--[a-z-]+=' -- (commandline -ct))  # may be joined to its value
    for line in ($words[1] complete $words[2..-1] 2>/dev/null)
        if test "$line" = :files
            __fish_complete_path (commandline -ct)
        else
            echo "$option$line"
        end
    end
end
complete -c gamut -f -a '(__gamut_candidates)'
