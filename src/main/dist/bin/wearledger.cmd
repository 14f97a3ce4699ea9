@echo off
rem Not run on Windows so far: only its line ends, its characters and what it gives to Java are checked by a test.
rem Starts Wearledger with the Java found in JAVA_HOME, else on the PATH. Options for Java: WEARLEDGER_JAVA_OPTS.
setlocal
set "JAVA=java"
if defined JAVA_HOME set "JAVA=%JAVA_HOME%\bin\java"
"%JAVA%" -version >nul 2>&1
if errorlevel 1 (
  echo wearledger: no Java can be started: install Java 17 or newer, or set JAVA_HOME to the folder where it lies 1>&2
  exit /b 1
)
for %%J in ("%~dp0..\lib\wearledger-*.jar") do set "JAR=%%~fJ"
"%JAVA%" %WEARLEDGER_JAVA_OPTS% -XX:+IgnoreUnrecognizedVMOptions --sun-misc-unsafe-memory-access=allow -jar "%JAR%" %*
exit /b %ERRORLEVEL%
