package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** What is told when no window can open; the messages are those that JavaFX 21 gave on Linux. */
class StartupFaultTest {
    @Test
    void aMissingTextLibraryIsNamedWithItsPackage() {
        Throwable fault =
                new RuntimeException(
                        "Exception in Application start method",
                        new UnsatisfiedLinkError(
                                "/root/.openjfx/cache/21/amd64/libjavafx_font_pango.so:"
                                        + " libpangoft2-1.0.so.0: cannot open shared object file"));
        assertThat(StartupFault.of(fault).orElseThrow())
                .contains("libpangoft2-1.0.so.0")
                .contains("package libpangoft2-1.0-0")
                .contains("command line works");
        assertThat(
                        StartupFault.of(
                                new NoClassDefFoundError(
                                        "Could not initialize class"
                                                + " com.sun.javafx.font.freetype.OSPango")))
                .isPresent();
    }

    @Test
    void noDisplayIsTold() {
        assertThat(
                        StartupFault.of(
                                new RuntimeException(
                                        new UnsupportedOperationException(
                                                "Unable to open DISPLAY"))))
                .hasValueSatisfying(t -> assertThat(t).startsWith("there is no display"));
    }

    @Test
    void faultsOfTheProgramAreNotDressedUp() {
        assertThat(StartupFault.of(new IllegalStateException("oops"))).isEmpty();
        assertThat(StartupFault.of(new NullPointerException())).isEmpty();
    }
}
