@echo off
rem Starts Padward with the arguments given. When the first window closes, Java writes an archive of the
rem classes, from which later windows start faster. Delete the archive after installing another Java.
setlocal DisableDelayedExpansion
set "java=java"
if not defined JAVA_HOME goto found
rem Some write quotation marks into it.
set "home=%JAVA_HOME:"=%"
if exist "%home%\bin\java.exe" set "java=%home%\bin\java.exe"
:found
set "jar=%~dp0padward.jar"
set "share=-Xshare:auto"
set "first="
if "%~1"=="" set "first=yes"
if "%~1"=="window" set "first=yes"
if not defined LOCALAPPDATA goto start
set "cache=%LOCALAPPDATA%\Padward"
set "archive=%LOCALAPPDATA%\Padward\classes.jsa"
if exist "%archive%" (
    set "share=-XX:SharedArchiveFile=%archive%"
) else if defined first (
    if not exist "%cache%\" mkdir "%cache%" 2>nul
    if exist "%cache%\" set "share=-XX:ArchiveClassesAtExit=%archive%"
)
:start
rem Most commands are over before it pays to compile in full; in the window it does.
if defined first goto window
"%java%" -XX:Tier4InvocationThreshold=50000 -XX:Tier4MinInvocationThreshold=6000 -XX:Tier4CompileThreshold=150000 -XX:Tier4BackEdgeThreshold=400000 "%share%" -Xlog:disable -jar "%jar%" %*
exit /b %ERRORLEVEL%
:window
"%java%" "%share%" -Xlog:disable -jar "%jar%" %*
exit /b %ERRORLEVEL%
