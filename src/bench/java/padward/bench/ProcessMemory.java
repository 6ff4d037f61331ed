package padward.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** The memory of processes, where the system tells it. */
final class ProcessMemory {
    private ProcessMemory() {}

    /** The most that a process has used at once, MB; 0 where the system does not tell it. */
    static double greatest(long process) {
        try (Stream<String> lines = Files.lines(Path.of("/proc/" + process + "/status"))) {
            return lines.filter(l -> l.startsWith("VmHWM:"))
                    .mapToDouble(l -> Double.parseDouble(l.replaceAll("\\D", "")) * 1024 / 1e6)
                    .findFirst()
                    .orElse(0);
        } catch (IOException | UncheckedIOException gone) {
            return 0;
        }
    }
}
