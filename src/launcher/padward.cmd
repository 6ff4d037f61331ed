@echo off
rem Starts Padward with the arguments given. When the first window closes, Java writes an archive of the
rem classes, from which later windows start faster. Delete the archive after installing another Java.
setlocal
set "jar=%~dp0padward.jar"
set "cache=%LOCALAPPDATA%\Padward"
set "archive=%cache%\classes.jsa"
set "share=-Xshare:auto"
if exist "%archive%" (
    set "share=-XX:SharedArchiveFile=%archive%"
) else if "%~1"=="" (
    if not exist "%cache%" mkdir "%cache%"
    set "share=-XX:ArchiveClassesAtExit=%archive%"
)
java "%share%" -Xlog:disable -jar "%jar%" %*
