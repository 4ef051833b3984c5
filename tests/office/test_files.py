"""Places on the computer, as the office's dialogs give them."""

import pytest

pytestmark = pytest.mark.office


@pytest.fixture
def safe_files(extension_file):
    from extension.loftsheet_office.common import safe_files

    return safe_files


@pytest.fixture
def refusal(extension_file):
    from extension.loftsheet_office.common.refusal import Refusal

    return Refusal


def test_a_place_elsewhere_or_of_no_file_is_refused_in_words(safe_files, refusal):
    with pytest.raises(refusal, match="a place on this computer"):
        safe_files.local("https://example.org/order.xlsx")
    with pytest.raises(refusal, match="cannot tell which file file:///%2F is"):
        safe_files.local("file:///%2F")
    assert str(safe_files.local("file:///boats/a%25zz.xlsx")).endswith("a%zz.xlsx")


def test_a_folder_that_is_gone_is_refused_in_words(refusal, tmp_path):
    from extension.loftsheet_office.dialogs import choose_file

    with pytest.raises(refusal, match=r"There is no folder .*gone\. It may have been moved or renamed"):
        choose_file._there(tmp_path / "gone")
    assert choose_file._there(tmp_path) == tmp_path


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (IsADirectoryError(21, "Is a directory"), "Writing a did not work: Is a directory. The place is /.*/a"),
        (OSError(28, "No space left on device"), "the disk is full, .* KiB are left at /.*. Free some room there"),
    ],
)
def test_a_refusal_of_the_computer_says_what_and_where(safe_files, refusal, tmp_path, error, words):
    with pytest.raises(refusal, match=words), safe_files.InWords("Writing a", tmp_path / "a"):
        raise error
