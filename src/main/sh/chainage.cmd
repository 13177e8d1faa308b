@echo off
rem Starts the program that lies beside this file, as start.sh does elsewhere. Never tried on Windows yet.
setlocal
if defined JAVA_HOME (set "java=%JAVA_HOME%\bin\java.exe") else for %%f in (java.exe) do set "java=%%~$PATH:f"
if not exist "%java%" (
  echo chainage: there is no Java at "%java%"; install Java 17 or newer, or let JAVA_HOME name its folder 1>&2
  exit /b 127
)
rem As in start.sh: whoever sets Java's options sets the heap too.
set "heap=-Xms192m -XX:NewSize=21m"
if not "%JDK_JAVA_OPTIONS%%JAVA_TOOL_OPTIONS%%_JAVA_OPTIONS%"=="" set "heap="
"%java%" -XX:+UseSerialGC -XX:TieredStopAtLevel=1 %heap% -jar "%~dpn0" %*
