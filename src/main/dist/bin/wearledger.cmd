@echo off
rem Starts Wearledger with the Java found in JAVA_HOME, else on the PATH. Options for Java: WEARLEDGER_JAVA_OPTS.
setlocal
set "JAVA=java"
if defined JAVA_HOME set "JAVA=%JAVA_HOME%\bin\java"
for %%J in ("%~dp0..\lib\wearledger-*.jar") do set "JAR=%%~fJ"
"%JAVA%" %WEARLEDGER_JAVA_OPTS% -XX:+IgnoreUnrecognizedVMOptions --sun-misc-unsafe-memory-access=allow -jar "%JAR%" %*
exit /b %ERRORLEVEL%
