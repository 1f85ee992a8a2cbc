# Completes callfit's commands, options, words of an option, files and paths of tries. All of them are
# read off what the program itself prints.

# "--name VALUE" for each option of a command, as its help shows them.
_callfit_options() {  # program, command
  "$1" "$2" --help all 2>/dev/null | sed -nE \
    's/^  (-[a-z] \[ )?(--[a-z-]+)( \])?( \[=[^ ]*| [^ a-z(][^ ]*| [^ ]*\|[^ ]*)?.*/\2\4/p'
}

# The words before the one in hand, without quotes; "--name=value", which bash takes apart, whole again.
_callfit_words() {
  local i text=""
  for ((i = 1; i < at; ++i)); do
    if [[ ${COMP_WORDS[i]} == [=:] || ${COMP_WORDS[i - 1]} == [=:] ]]; then
      text+=${COMP_WORDS[i]}
    else
      text+=$'\n'${COMP_WORDS[i]/#\~\//$HOME/}
    fi
  done
  mapfile -t words < <(xargs -n 1 printf '%s\n' <<< "$text" 2>/dev/null)
}

# Paths of tries as far as their next dot, the case being what the words say but for the tries in them.
_callfit_paths() {  # program, word, what stands behind a whole path
  local words=() kept=() i path
  _callfit_words
  for ((i = 0; i < ${#words[@]}; ++i)); do
    case ${words[i]} in
      -o | --output | --set | --try | --sweep | --even | --paths) ((++i)) ;;
      -o* | --output=* | --set=* | --try=* | --sweep=* | --even=* | --paths=* | --json | "") ;;
      *) kept+=("${words[i]}") ;;
    esac
  done
  compopt -o nospace 2>/dev/null
  mapfile -t COMPREPLY < <(
    "$1" "${kept[@]}" --paths --json 2>/dev/null < /dev/null |
      sed -nE 's/^ *"path": "(.*)",$/\1/p' |
      while read -r path; do
        [[ $path == "$2"* ]] || continue
        path=${path#"$2"}
        if [[ $path == *.* ]]; then echo "$2${path%%.*}."; else echo "$2$path$3"; fi
      done | sort -u)
}

_callfit_files() {
  compopt -o filenames 2>/dev/null
  mapfile -t COMPREPLY < <(compgen -f -- "$1")
}

_callfit() {
  local program=${COMP_WORDS[0]} command=${COMP_WORDS[1]} at=$COMP_CWORD
  local word=${COMP_WORDS[at]} option="" value=""
  COMPREPLY=()
  if ((at == 1)); then
    mapfile -t COMPREPLY < <(compgen -W "--help --version $("$program" --help 2>/dev/null |
      sed -nE '/^Commands$/,/^$/s/^  ([a-z]+) .*/\1/p')" -- "$word")
    return
  fi
  # The option whose value is in hand: "--set pa", "--set=pa", "--try name:pa".
  [[ $word == [=:] ]] && word="" && ((++at))
  ((at > 1)) && case ${COMP_WORDS[at - 1]} in
    =) ((at -= 2)) ;;
    :) ((at -= 3)) ;;
    *) ((at -= 1)) ;;
  esac
  option=${COMP_WORDS[at]}
  [[ $option == -o ]] && option=--output
  if [[ $word == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$(_callfit_options "$program" "$command" | cut -d' ' -f1)" \
      -- "$word")
    return
  fi
  if [[ $option == --* ]]; then
    value=$(_callfit_options "$program" "$command" | sed -nE "s/^$option (.+)/\1/p" | head -n 1)
  fi
  case $value in
    *PATH=*) _callfit_paths "$program" "$word" = ;;
    *PATH*) _callfit_paths "$program" "$word" "" ;;
    *[a-z]\|[a-z]*) mapfile -t COMPREPLY < <(compgen -W "${value//|/ }" -- "$word") ;;
    *) _callfit_files "$word" ;;
  esac
}
complete -F _callfit callfit
