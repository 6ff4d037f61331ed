package padward.docs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import padward.cli.Padward;

/**
 * The files with which a desktop opens designs (Desktop Entry and Shared MIME-info specifications
 * of freedesktop.org): they name a command that exists, and designs are called as they say.
 */
class DesktopEntryTest {
    private static final Path FOLDER = Path.of("src/image/linux");

    private static String value(String key) throws Exception {
        return Files.readAllLines(FOLDER.resolve("padward.desktop")).stream()
                .filter(l -> l.startsWith(key + "="))
                .findFirst()
                .orElseThrow()
                .substring(key.length() + 1);
    }

    private static List<Element> elements(String name) throws Exception {
        Document types =
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(FOLDER.resolve("padward-design.xml").toFile());
        NodeList found = types.getElementsByTagName(name);
        List<Element> result = new ArrayList<>();
        for (int i = 0; i < found.getLength(); i++) {
            result.add((Element) found.item(i));
        }
        return result;
    }

    @Test
    void theEntryRunsACommandThatExists() throws Exception {
        String[] words = value("Exec").split(" ");
        assertThat(words).startsWith("padward").endsWith("%f");
        assertThat(
                        Padward.commandLine()
                                .getSubcommands()
                                .get(words[1])
                                .getCommandSpec()
                                .findOption(words[2]))
                .isNotNull();
    }

    @Test
    void theTypesAreThoseOfTheEntry() throws Exception {
        assertThat(elements("mime-type"))
                .extracting(t -> t.getAttribute("type"))
                .containsExactlyInAnyOrder(value("MimeType").split(";"));
    }

    @Test
    void everyDesignOfTheExamplesIsFoundByItsName() throws Exception {
        List<String> patterns =
                elements("glob").stream().map(g -> g.getAttribute("pattern")).toList();
        try (Stream<Path> files = Files.walk(Path.of("fixtures"))) {
            List<Path> designs =
                    files.map(Path::getFileName)
                            .filter(f -> f.toString().matches(".*design[.]json([.]gz)?"))
                            .toList();
            assertThat(designs).hasSizeGreaterThan(3);
            assertThat(designs).allMatch(d -> patterns.stream().anyMatch(p -> fits(p, d)));
        }
    }

    private static boolean fits(String pattern, Path name) {
        return FileSystems.getDefault().getPathMatcher("glob:" + pattern).matches(name);
    }
}
