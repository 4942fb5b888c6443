package search

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
)

// bytes writes the index as the package's comment says.
func (x *Index) bytes() ([]byte, error) {
	x.Head.Terms = frontCoded(x.Terms)
	var out bytes.Buffer
	packer, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	head, err := json.Marshal(x.Head)
	if err != nil {
		return nil, err
	}
	numbers := append(head, '\n')
	for _, pages := range x.Postings {
		numbers = binary.AppendUvarint(numbers, uint64(len(pages)))
	}
	for _, pages := range x.Postings {
		before := -1
		for _, p := range pages {
			numbers = binary.AppendUvarint(numbers, uint64(p.Page-before-1)*uint64(places)+uint64(p.Place))
			before = p.Page
		}
	}
	if _, err := packer.Write(numbers); err != nil {
		return nil, err
	}
	if err := packer.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// frontCoded writes each term as the number of characters that it shares with the one before, as one character from 0 on,
// and the rest of it.
func frontCoded(terms []string) string {
	var b strings.Builder
	before := ""
	for i, term := range terms {
		if i > 0 {
			b.WriteByte(' ')
		}
		shared := 0
		a, t := []rune(before), []rune(term)
		for shared < min(len(a), len(t), mostShared) && a[shared] == t[shared] {
			shared++
		}
		b.WriteRune(rune('0' + shared))
		b.WriteString(string(t[shared:]))
		before = term
	}
	return b.String()
}

// mostShared keeps the character that tells it a plain letter.
const mostShared = 'z' - '0'

// Read takes an index apart again. The script reads it by itself; this is for tests and for looking into one.
func Read(file []byte) (*Index, error) {
	packed, err := gzip.NewReader(bytes.NewReader(file))
	if err != nil {
		return nil, damaged(err)
	}
	all, err := io.ReadAll(io.LimitReader(packed, largest))
	if err != nil {
		return nil, damaged(err)
	}
	head, numbers, _ := bytes.Cut(all, []byte("\n"))
	x := &Index{}
	if err := json.Unmarshal(head, &x.Head); err != nil {
		return nil, damaged(err)
	}
	if x.Terms, err = fromFrontCoded(x.Head.Terms); err != nil {
		return nil, damaged(err)
	}
	x.Postings, err = readPostings(bytes.NewReader(numbers), len(x.Terms), len(x.Pages))
	if err != nil {
		return nil, damaged(err)
	}
	return x, nil
}

// largest is in bytes, inflated: a hundred times what a thousand guides take.
const largest = 1 << 28

func damaged(err error) error { return fmt.Errorf("the index of the search is damaged: %w", err) }

func fromFrontCoded(text string) ([]string, error) {
	if text == "" {
		return nil, nil
	}
	var terms []string
	var before []rune
	for _, coded := range strings.Split(text, " ") {
		letters := []rune(coded)
		if len(letters) == 0 {
			return nil, errors.New("a term is empty")
		}
		shared := int(letters[0] - '0')
		if shared < 0 || shared > len(before) {
			return nil, fmt.Errorf("a term shares %d characters with one of %d", shared, len(before))
		}
		term := append(before[:shared:shared], letters[1:]...)
		terms = append(terms, string(term))
		before = term
	}
	return terms, nil
}

func readPostings(numbers *bytes.Reader, terms, pages int) ([][]Posting, error) {
	all := make([][]Posting, terms)
	for i := range all {
		count, err := binary.ReadUvarint(numbers)
		if err != nil || count > uint64(pages) {
			return nil, fmt.Errorf("a term is on %d of %d pages, %v", count, pages, err)
		}
		all[i] = make([]Posting, count)
	}
	for _, list := range all {
		page := -1
		for i := range list {
			n, err := binary.ReadUvarint(numbers)
			step := n / uint64(places)
			if err != nil || step > uint64(pages) || page+int(step)+1 >= pages {
				return nil, fmt.Errorf("a page after %d of %d, by %d, %v", page, pages, step, err)
			}
			page += int(step) + 1
			list[i] = Posting{page, Place(n % uint64(places))}
		}
	}
	return all, nil
}
