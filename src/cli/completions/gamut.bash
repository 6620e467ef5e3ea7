# Completion of gamut for bash. What may come next the program itself says; see src/cli/complete.h.
_gamut() {
    local line current=${COMP_WORDS[COMP_CWORD]}
    COMPREPLY=()
    while IFS= read -r line; do
        if [ "$line" = :files ]; then
            compopt -o filenames
            while IFS= read -r line; do COMPREPLY+=("$line"); done < <(compgen -f -- "$current")
            continue
        fi
        line=${line%%$'\t'*}
        # A title is a stranger's text: nothing in it may mean something to the shell. Where a quote stands open, which the
        # shell closes by itself, what would end it or run in it is not offered.
        case $current in
            \"*) [[ $line == *[\$\`\"\\!]* ]] || COMPREPLY+=("$line") ;;
            \'*) [[ $line == *\'* ]] || COMPREPLY+=("$line") ;;
            *) COMPREPLY+=("$(printf %q "$line")") ;;
        esac
    done < <("$1" complete "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
}
complete -F _gamut gamut
