@echo off
rem Starts the workbench on Windows; builds it where it was not built in this folder.
setlocal
set "here=%~dp0"
set "start=%here%target\start"
set "builtin=%here%target\built-in"
set "last="
if exist "%builtin%" set /p last=<"%builtin%"
if exist "%start%" if "%last%"=="%here%" goto built

where mvn >nul 2>nul
if errorlevel 1 (
  >&2 echo The workbench has to be built once, which needs Maven 3.8 or later: mvn was not found.
  exit /b 3
)
>&2 echo Building the workbench; the first time takes some minutes, as libraries are fetched.
pushd "%here%..\.."
call mvn -q -B -ntp -Dstyle.color=never -pl examples/workbench -am -DskipTests package >&2 <nul
if errorlevel 1 (
  popd
  exit /b 3
)
popd
>"%builtin%" echo %here%

:built
where java >nul 2>nul
if errorlevel 1 (
  >&2 echo The workbench needs Java 17 or later: java was not found.
  exit /b 3
)
java "@%start%" %*
exit /b %errorlevel%
