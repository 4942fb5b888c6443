package edition

import (
	"slices"
	"testing"
)

func TestRecordReadsBackAndFollowsTheFiles(t *testing.T) {
	files := []File{{"b/index.html", []byte("b")}, {"a \"quoted\".html", []byte("a")}}
	record := Of(files)
	back, ours := Read(record.File().Bytes)
	if !ours || back.Edition != record.Edition || !slices.Equal(back.Files, record.Files) {
		t.Fatalf("read back %+v, want %+v", back, record)
	}
	if record.Files[0][0] != files[1].Path {
		t.Errorf("files are not in the order of their paths: %v", record.Files)
	}
	slices.Reverse(files)
	if again := Of(files); again.Edition != record.Edition {
		t.Errorf("the order of the files changed the edition")
	}
	if with := Of(append(files, record.File())); with.Edition != record.Edition {
		t.Errorf("the marker changed the edition")
	}
}

func TestEveryChangeNamesAnotherEdition(t *testing.T) {
	base := []File{{"a", []byte("1")}, {"b", []byte("2")}}
	for name, other := range map[string][]File{
		"content": {{"a", []byte("1")}, {"b", []byte("3")}},
		"path":    {{"a", []byte("1")}, {"c", []byte("2")}},
		"swapped": {{"a", []byte("2")}, {"b", []byte("1")}},
		"fewer":   {{"a", []byte("1")}},
		"none":    nil,
	} {
		if Of(other).Edition == Of(base).Edition {
			t.Errorf("%s: same edition", name)
		}
	}
}

func TestDigestIsSubresourceIntegrity(t *testing.T) {
	// echo -n "alert('Hello, world.');" | openssl dgst -sha256 -binary | base64
	const want = "sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng="
	if got := Digest([]byte("alert('Hello, world.');")); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestForeignMarkersAreNotOurs(t *testing.T) {
	for _, text := range []string{"", "{", "[]", "null", `{"generator":"other"}`, `{"Generator":1}`} {
		if _, ours := Read([]byte(text)); ours {
			t.Errorf("%q taken for ours", text)
		}
	}
}

func TestAFileThatTellsTheNameIsListedUnderIt(t *testing.T) {
	files := []File{{"b", []byte("b")}, {"z", []byte("z")}}
	more := File{"sw.js", []byte("worker")}
	before := Of(files)
	with, all := before.With(more), Of(append(files, more))
	if with.Edition != before.Edition || !slices.Equal(with.Files, all.Files) || len(before.Files) != 2 {
		t.Errorf("got %+v from %+v, want the files %v", with, before, all.Files)
	}
}
