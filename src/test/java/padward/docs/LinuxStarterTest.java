package padward.docs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** The script that starts the application on Linux, with a Java that prints what it is given. */
@EnabledOnOs(OS.LINUX)
class LinuxStarterTest {
    private static final String JAVA =
            "#!/bin/sh\nprintf '%s\\n' \"$0\" \"[${JDK_JAVA_OPTIONS-}]\" \"$@\"\n";

    @TempDir Path folder;
    private Path root;
    private Path bin;

    @BeforeEach
    void makeApplication() throws IOException {
        root = folder.toRealPath().resolve("an $app");
        bin = Files.createDirectories(root.resolve("bin"));
        String script =
                Files.readString(Path.of("src/image/linux/padward"))
                        .replace("@OPTIONS@", "-Xone -Xtwo")
                        .replace("@BRIEF@", "-Xbrief -Xmore");
        makeProgram(bin.resolve("padward"), script);
        makeProgram(Files.createDirectories(root.resolve("lib/runtime/bin")).resolve("java"), JAVA);
    }

    private static void makeProgram(Path file, String text) throws IOException {
        Files.writeString(file, text);
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    private List<String> run(Path in, Map<String, String> environment, String... words)
            throws Exception {
        ProcessBuilder builder =
                new ProcessBuilder(words).directory(in.toFile()).redirectErrorStream(true);
        builder.environment().remove("JDK_JAVA_OPTIONS");
        builder.environment().putAll(environment);
        Process process = builder.start();
        String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return out.lines().toList();
    }

    private void assertStarts(List<String> printed) {
        assertThat(printed)
                .startsWith(root.resolve("lib/runtime/bin/java").toString(), "[]", "-Xone")
                .containsSequence("-cp", root.resolve("lib/nothing.jar").toString());
    }

    @Test
    void wordsArriveAsTheyAre() throws Exception {
        List<String> printed =
                run(folder, Map.of(), bin.resolve("padward").toString(), "ask", "a  *", "", "$x");
        assertStarts(printed);
        assertThat(printed).contains("-Xbrief", "-Xmore");
        assertThat(printed).endsWith("padward.Main", "ask", "a  *", "", "$x");
    }

    @Test
    void theWindowIsCompiledInFull() throws Exception {
        String program = bin.resolve("padward").toString();
        assertThat(run(folder, Map.of(), program))
                .doesNotContain("-Xbrief")
                .endsWith("padward.Main");
        assertThat(run(folder, Map.of(), program, "window", "--design", "d.json"))
                .doesNotContain("-Xbrief")
                .endsWith("padward.Main", "window", "--design", "d.json");
    }

    @Test
    void linksAreFollowed() throws Exception {
        Path links = Files.createDirectories(folder.resolve("some links"));
        Files.createSymbolicLink(links.resolve("far"), bin.resolve("padward"));
        Files.createSymbolicLink(links.resolve("near"), Path.of("far"));
        assertStarts(run(folder, Map.of(), "some links/near"));
        assertStarts(run(links, Map.of("PATH", links + ":/usr/bin:/bin"), "sh", "-c", "near"));
    }

    /** As a shell starts it that is told to read the file, or finds it by an empty part of PATH. */
    @Test
    void aNameWithoutAFolderIsInThisFolderOrOnThePath() throws Exception {
        assertStarts(run(bin, Map.of(), "sh", "padward", "nets"));
        assertStarts(run(bin, Map.of("PATH", ":/usr/bin:/bin"), "sh", "-c", "padward nets"));
        Map<String, String> path = Map.of("PATH", bin + ":/usr/bin:/bin");
        assertStarts(run(folder, path, "bash", "padward", "nets"));
    }

    /** Of a user who has set where {@code cd} looks, and options for Javas of other programs. */
    @Test
    void whatTheShellAndAnotherJavaAreToldDoesNotMatter() throws Exception {
        assertStarts(run(root, Map.of("CDPATH", folder + ":" + root), "bin/padward", "nets"));
        assertStarts(run(root, Map.of("JDK_JAVA_OPTIONS", "-Xunknown"), "bin/padward", "nets"));
    }
}
