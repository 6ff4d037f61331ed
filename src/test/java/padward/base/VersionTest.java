package padward.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;

/** The version that the program states is that of the build. */
class VersionTest {
    @Test
    void itIsThatOfTheBuild() throws Exception {
        Document build =
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(Path.of("pom.xml").toFile());
        String stated =
                build.getDocumentElement().getElementsByTagName("version").item(0).getTextContent();
        assertThat(Version.text()).isIn(stated, "not built");
    }
}
