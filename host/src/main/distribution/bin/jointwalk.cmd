@echo off
rem Starts jointwalk with the Java found in JAVA_HOME, or else on the PATH.
rem JOINTWALK_JAVA_OPTS is handed to Java, split at spaces.
setlocal
for %%I in ("%~dp0..") do set "JOINTWALK_HOME=%%~fI"

if defined JAVA_HOME goto javaFromHome
set "JOINTWALK_JAVA=java.exe"
where java.exe >nul 2>nul && goto start
echo jointwalk: no Java found. Install Java 17 or newer. 1>&2
exit /b 2

:javaFromHome
set "JOINTWALK_JAVA=%JAVA_HOME%\bin\java.exe"
if exist "%JOINTWALK_JAVA%" goto start
echo jointwalk: JAVA_HOME is %JAVA_HOME%, and there is no bin\java.exe in it. Point it at a Java 17 or newer. 1>&2
exit /b 2

:start
set "JOINTWALK_ARCHIVE="
if exist "%JOINTWALK_HOME%\lib\jointwalk.jsa" set JOINTWALK_ARCHIVE="-XX:SharedArchiveFile=%JOINTWALK_HOME%\lib\jointwalk.jsa"
"%JOINTWALK_JAVA%" -Xshare:auto -XX:+UseSerialGC -XX:TieredStopAtLevel=1 -Xlog:disable -Xlog:all=error:stderr -Dfile.encoding=UTF-8 "-Djointwalk.home=%JOINTWALK_HOME%" %JOINTWALK_JAVA_OPTS% %JOINTWALK_ARCHIVE% -cp "%JOINTWALK_HOME%\lib\jointwalk.jar" org.jointwalk.cli.Main %*
exit /b %ERRORLEVEL%
