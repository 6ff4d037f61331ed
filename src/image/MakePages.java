import java.io.IOException;
import java.lang.reflect.Method;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * Makes manual pages and completion for shells from the commands' own help: {@code java
 * src/image/MakePages.java TARGET VERSION SHARE}. TARGET holds {@code padward.jar} and {@code lib};
 * the pages come to {@code SHARE/man/man1}, the completion to {@code SHARE/completion}.
 */
public final class MakePages {
    /** The names are those that the program lists; the design is the line's, or the environment's. */
    private static final String NAMES =
            """

            # Names of nets or pads in the design that the line states, or else PADWARD_DESIGN.
            function _padward_names() {
              local word=${COMP_WORDS[COMP_CWORD]} design=${PADWARD_DESIGN} i
              for (( i = 1; i + 1 < COMP_CWORD; i++ )); do
                case ${COMP_WORDS[i]} in
                  '-d'|'--design') design=${COMP_WORDS[i+1]} ;;
                esac
              done
              design=${design//[\\\\\\'\\"]/}
              [ -n "${design}" ] || return 0
              word=${word//[\\\\\\'\\"]/}
              local name
              COMPREPLY=()
              while IFS= read -r name; do
                if [[ ${name} == "${word}"* ]]; then
                  COMPREPLY+=( "$(printf %q "${name}")" )
                fi
              done < <("${COMP_WORDS[0]}" "$1" --design "${design/#\\~/${HOME}}" 2>/dev/null | awk -F '  +' 'NR > 1 { print $1 }')
            }
            """;

    private final Path target;
    private final String version;

    private MakePages(Path target, String version) {
        this.target = target;
        this.version = version;
    }

    /** Makes them. */
    public static void main(String[] arguments) throws Exception {
        new MakePages(Path.of(arguments[0]).toAbsolutePath(), arguments[1]).make(Path.of(arguments[2]));
    }

    private void make(Path share) throws Exception {
        Path pages = Files.createDirectories(share.resolve("man/man1"));
        try (URLClassLoader loader = new URLClassLoader(jars())) {
            Object line = loader.loadClass("padward.cli.Padward").getMethod("commandLine").invoke(null);
            Map<String, Object> commands = new TreeMap<>();
            commands.put("padward", line);
            ((Map<?, ?>) line.getClass().getMethod("getSubcommands").invoke(line))
                    .forEach((name, sub) -> commands.put("padward-" + name, sub));
            for (Map.Entry<String, Object> command : commands.entrySet()) {
                Method usage = command.getValue().getClass().getMethod("getUsageMessage");
                String text = (String) usage.invoke(command.getValue());
                Files.writeString(
                        pages.resolve(command.getKey() + ".1"), page(command.getKey(), text));
            }
            Path completion = Files.createDirectories(share.resolve("completion"));
            String script =
                    (String)
                            loader.loadClass("picocli.AutoComplete")
                                    .getMethod("bash", String.class, line.getClass())
                                    .invoke(null, "padward", line);
            Files.writeString(
                    completion.resolve("padward"), withNames(script), StandardCharsets.UTF_8);
        }
    }

    /** The same script, which also completes the names of nets and pads. */
    private static String withNames(String script) {
        String nets = script.replaceAll("('-n'\\|'--nets?'\\)\n +)return\n", "$1_padward_names nets\n      return\n");
        String both = nets.replaceAll("('-p'\\|'--pads?'\\)\n +)return\n", "$1_padward_names pads\n      return\n");
        if (nets.equals(script) || both.equals(nets)) {
            throw new IllegalStateException("the script has no place for names");
        }
        int first = both.indexOf("\nfunction ");
        return both.substring(0, first) + NAMES + both.substring(first);
    }

    private URL[] jars() throws IOException {
        List<URL> jars = new ArrayList<>();
        jars.add(target.resolve("padward.jar").toUri().toURL());
        try (Stream<Path> files = Files.list(target.resolve("lib"))) {
            for (Path jar : (Iterable<Path>) files::iterator) {
                jars.add(jar.toUri().toURL());
            }
        }
        return jars.toArray(URL[]::new);
    }

    /** A page in the language of man(7): the help as it is printed. */
    private String page(String name, String help) {
        String body = help.replace("\\", "\\e").replaceAll("(?m)^([.'])", "\\\\&$1").replace("-", "\\-");
        return ".TH "
                + name.toUpperCase(Locale.ROOT)
                + " 1 \"\" \"Padward "
                + version
                + "\"\n.SH NAME\n"
                + name.replace("-", "\\-")
                + " \\- inner nets of programmable logic on pads\n.SH HELP\n.nf\n"
                + body
                + ".fi\n";
    }
}
