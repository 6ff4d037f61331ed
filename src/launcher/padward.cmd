@echo off
rem Starts Padward; what follows is given to it. The first window writes an archive of its classes as it
rem closes, from which later ones start more quickly. Delete the archive after another Java is installed.
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
