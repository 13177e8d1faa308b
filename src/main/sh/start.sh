#!/bin/sh
# cron and timers set no locale; without one Java cannot open files whose names hold other letters than ASCII.
case "${LC_ALL:-${LC_CTYPE:-$LANG}}" in *[Uu][Tt][Ff]*) ;; *) LC_ALL=C.UTF-8; export LC_ALL ;; esac
terminal=false; columns=0
[ -t 2 ] && terminal=true
[ -t 1 ] && columns=$(stty size 2>/dev/null </dev/tty) && columns=${columns#* }
case $0 in /*) self=$0 ;; *) self=$PWD/$0 ;; esac
set -- -Dchainage.program="$0" -Dchainage.terminal="$terminal" -Dchainage.columns="${columns:-0}" -jar "$self" "$@"
# Mode, links, owner and more of a folder and of all above it, a line each, the folder itself last.
list() {
  run=$1 way=$2
  set -- /
  while [ -n "$way" ]; do set -- "$@" "$way"; way=${way%/*}; done
  $run ls -ldn -- "$@"
}
# Whether we and root alone decide what lies in a folder: whatever is on the way there, as written and without links,
# belongs to one of us, and no one else may write in it. Leaves the folder's own mode in $mode. One process, 1 ms.
closed() {
  lines=$(
    LC_ALL=C; export LC_ALL; exec 2>/dev/null
    cd -P -- "$1" && { [ "$PWD" = "$1" ] || list '' "$1"; } && list exec "$PWD"
  ) || return
  # Where the folder is ours, and we are not root, there is one owner besides root, and that is we.
  me=0
  [ -O / ] || ! [ -O "$1" ] || me=
  set -f; IFS='
'
  set -- $lines
  set +f; unset IFS
  for line; do
    set -- $line
    mode=$1
    case $3 in 0 | "$me") ;; *) [ -z "$me" ] || return; me=$3 ;; esac
    case $mode:$3 in l* | d????-??-?*:* | d????????[tT]*:0) ;; *) return 1 ;; esac
  done
}
# What the program has put by for a quick start (QuickStart.java): used when no one else can have put it there, and when
# it is newer than the program. Where others may write, nothing is put by.
cache=${XDG_CACHE_HOME:-${HOME:+$HOME/.cache}}
case $cache:$self in
  *../* | *:*:*) ;;
  /*)
    kept=$cache/chainage/start$self
    there=$kept
    until [ -d "$there/" ]; do there=${there%/*}; done
    if { [ "$there" = "$kept" ] || [ -w "$there" ]; } && closed "$there"; then
      use=false
      # Into a folder that is ours alone no one else reaches, whatever the modes of its files are.
      [ "$there" = "$kept" ] && [ -O "$kept" ] && [ "$kept/classes.jsa" -nt "$self" ] \
        && case $mode in drwx------*) use=true ;; esac
      for file in "$kept/classes.jsa" "$kept/seal" "$kept"/lib*; do
        $use && { [ -f "$file" ] && [ -O "$file" ] && ! [ -h "$file" ] || use=false; }
      done
      $use && set -- -XX:SharedArchiveFile="$kept/classes.jsa" -XX:+VerifySharedSpaces -Xlog:disable "$@"
      set -- -Dchainage.start="$kept" -Dchainage.start.used="$use" "$@"
    fi ;;
esac
java=${JAVA_HOME:+$JAVA_HOME/bin/}java
# In an image with a Java of its own, that one.
[ -f "${self%/*}/../release" ] && [ -x "${self%/*}/java" ] && java=${self%/*}/java
# What Java says of itself, it says without our name.
command -v "$java" >/dev/null || {
  echo "chainage: there is no Java at \"$java\"; install Java 17 or newer (apt install default-jre-headless, dnf install java-latest-openjdk-headless, brew install openjdk), or let JAVA_HOME name its folder" >&2
  exit 127
}
options=${JDK_JAVA_OPTIONS:+ JDK_JAVA_OPTIONS}${JAVA_TOOL_OPTIONS:+ JAVA_TOOL_OPTIONS}${_JAVA_OPTIONS:+ _JAVA_OPTIONS}
[ -z "$options" ] || echo "chainage: Java takes options from$options too, as it says next; unset it if Java then fails" >&2
# A small young part of the heap: most answers fit into the processor's own memory then. The old part takes no memory until
# it is filled, and each time that it has to grow all of it is gone through. Whoever sets Java's options sets the heap too.
heap='-Xms192m -XX:NewSize=21m'
[ -z "$options" ] || heap=
exec "$java" -XX:+UseSerialGC -XX:TieredStopAtLevel=1 $heap "$@"
exit
