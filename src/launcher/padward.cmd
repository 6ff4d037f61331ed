@echo off
rem Starts Padward with the arguments given. When the first window closes, Java writes an archive of the
rem classes, from which later windows start faster. Delete the archive after installing another Java.
setlocal DisableDelayedExpansion
set "java=java"
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" set "java=%JAVA_HOME%\bin\java.exe"
set "jar=%~dp0padward.jar"
set "share=-Xshare:auto"
set "cache="
set "archive="
if defined LOCALAPPDATA set "cache=%LOCALAPPDATA%\Padward"
if defined LOCALAPPDATA set "archive=%LOCALAPPDATA%\Padward\classes.jsa"
set "first="
if "%~1"=="" set "first=yes"
if "%~1"=="window" set "first=yes"
if not defined archive goto start
if exist "%archive%" (
    set "share=-XX:SharedArchiveFile=%archive%"
) else if defined first (
    if not exist "%cache%\" mkdir "%cache%" 2>nul
    if exist "%cache%\" set "share=-XX:ArchiveClassesAtExit=%archive%"
)
:start
"%java%" "%share%" -Xlog:disable -jar "%jar%" %*
exit /b %ERRORLEVEL%
